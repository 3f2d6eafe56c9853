//! `range`: served.
