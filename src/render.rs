//! From results to what is shown: text for people, JSON for programs, drawings of problems.
//!
//! Nothing here computes; nothing that computes knows what is here.

pub mod diagnostics;
pub mod json;
pub mod text;
