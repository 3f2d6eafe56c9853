//! The range: what would change.
