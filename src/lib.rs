//! lidladder.
pub mod diag;
pub mod head;
pub mod unit;
