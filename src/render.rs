//! From results to what is shown: text for people, JSON for programs, drawings of problems and of graphs.
//!
//! Nothing here computes; nothing that computes knows what is here.

pub mod csv;
pub mod diagnostics;
pub mod dot;
pub mod json;
pub mod patch;
pub mod svg;
pub mod text;
