//! From results to what is shown: text for people, JSON for programs, drawings of problems and of graphs.
//!
//! Nothing here computes; nothing that computes knows what is here.

mod audit_words;
mod away_words;
mod card_deck;
mod card_page;
mod colour;
pub mod csv;
pub mod diagnostics;
pub mod dot;
mod fit_words;
pub mod html;
pub mod json;
mod learn_words;
mod mark;
pub mod markdown;
mod markup;
mod pads_words;
pub mod patch;
mod plan_steps;
mod plan_words;
mod range_words;
mod rule_words;
mod sheet_words;
mod stock_report;
pub mod svg;
mod table;
pub mod text;
mod why_words;

pub use card_deck::CardDeck;
pub use mark::Mark;
pub use stock_report::StockReport;
