//! From results to what is shown: text for people, JSON for programs, drawings of problems and of graphs.
//!
//! Nothing here computes; nothing that computes knows what is here.

pub mod csv;
pub mod diagnostics;
pub mod dot;
pub mod html;
pub mod json;
pub mod patch;
mod sheet_words;
mod stock_report;
pub mod svg;
pub mod text;

pub use stock_report::StockReport;
