//! `range`: keep.
