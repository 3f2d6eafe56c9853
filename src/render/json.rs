//! JSON for programs: versioned structs of their own, so that the inside may change and the contract not.

mod common;
mod fit;
mod plan;
mod sketch;

pub use common::Warning;
pub use fit::{FitDocument, fit};
pub use plan::{PlanDocument, plan};
pub use sketch::{SketchDocument, sketch};

/// A document as text, two spaces a level, with a line break at its end.
#[must_use]
pub fn text<T: serde::Serialize>(document: &T) -> String {
    // Structs of numbers, words and lists always have a JSON form.
    let mut text = serde_json::to_string_pretty(document).unwrap_or_default();
    text.push('\n');
    text
}
