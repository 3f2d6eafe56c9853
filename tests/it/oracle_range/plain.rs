//! Shares against plain loops.
