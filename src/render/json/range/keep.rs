//! The range: a smaller range.
