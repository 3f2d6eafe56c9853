//! lidladder.
pub mod catalogue;
pub mod diag;
pub mod fallback;
pub mod fit;
pub mod head;
pub mod plan;
pub mod profile;
pub mod unit;
