//! `range`: design.
