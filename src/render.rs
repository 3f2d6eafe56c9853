//! From results to what is shown: text for people, JSON for programs, drawings of problems and of graphs.
//!
//! Nothing here computes; nothing that computes knows what is here.

mod card_deck;
mod card_page;
mod colour;
pub mod csv;
pub mod diagnostics;
pub mod dot;
pub mod html;
pub mod json;
pub mod markdown;
mod markup;
pub mod patch;
mod range_words;
mod sheet_words;
mod stock_report;
pub mod svg;
mod table;
pub mod text;

pub use card_deck::CardDeck;
pub use stock_report::StockReport;
