//! JSON for programs: versioned structs of their own, so that the inside may change and the contract not.

mod audit;
mod away;
mod cards;
mod check;
mod common;
mod drill;
mod fallbacks;
mod fit;
mod journal;
mod learn;
mod pads;
mod plan;
mod proposal;
mod range;
mod sketch;
mod why;

pub use audit::{AuditDocument, audit};
pub use away::{AwayDocument, away};
pub use cards::{CardsDocument, cards};
pub use check::{CheckDocument, check};
pub use common::Warning;
pub use drill::{DrillDocument, drill};
pub use fallbacks::{FallbacksDocument, fallbacks};
pub use fit::{FitDocument, fit};
pub use journal::{JournalDocument, VerifyDocument, journal, verified};
pub use learn::{LearnDocument, learn};
pub use pads::{PadsDocument, pads};
pub use plan::{PlanDocument, plan};
pub use proposal::{ProposalDocument, proposal};
pub use range::{
    RangeChangeDocument, RangeDesignDocument, RangeDocument, RangeKeepDocument, RangeMakerDocument, RangeStockDocument,
    SheetOrigin, range_change, range_design, range_keep, range_maker, range_stock, served,
};
pub use sketch::{SketchDocument, sketch};
pub use why::{WhyDocument, why};

use crate::diag::is_invisible;

/// A document as text, two spaces a level, with a line break at its end. Nothing in it does anything to a terminal.
#[must_use]
pub fn text<T: serde::Serialize>(document: &T) -> String {
    // Structs of numbers, words and lists always have a JSON form.
    let mut text = escaped(serde_json::to_string_pretty(document).unwrap_or_default());
    text.push('\n');
    text
}

/// JSON in which invisible characters are written as `\u202e`, which means the same: a writer of JSON need escape
/// only the first 32. They stand only within strings, except for the line breaks between the lines.
fn escaped(json: String) -> String {
    let is_kept = |character: char| character == '\n' || !is_invisible(character);
    if json.chars().all(is_kept) {
        return json;
    }
    let mut text = String::with_capacity(json.len() + 64);
    for character in json.chars() {
        if is_kept(character) {
            text.push(character);
        } else {
            // Two units where one is not enough.
            text.extend(character.encode_utf16(&mut [0; 2]).iter().map(|unit| format!("\\u{unit:04x}")));
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case("a\u{7f}b", "\"a\\u007fb\"\n")]
    #[case("\u{9b}31m", "\"\\u009b31m\"\n")]
    #[case("\u{202e}\u{2028}\u{feff}", "\"\\u202e\\u2028\\ufeff\"\n")]
    #[case("\u{e0041}", "\"\\udb40\\udc41\"\n")]
    #[case("\u{1b}[31m", "\"\\u001b[31m\"\n")]
    #[case("two\nlines\\u202e", "\"two\\nlines\\\\u202e\"\n")]
    #[case("é 名 😀", "\"é 名 😀\"\n")]
    fn invisible_characters_are_escaped_and_mean_the_same(#[case] value: &str, #[case] expected: &str) {
        assert_eq!(text(&value), expected);
        assert_eq!(serde_json::from_str::<String>(expected).unwrap(), value);
    }

    #[test]
    fn every_character_means_the_same() {
        let all: String = ('\0'..=char::MAX).collect();
        let document = text(&[[all.as_str()]]);
        assert_eq!(serde_json::from_str::<[[String; 1]; 1]>(&document).unwrap(), [[all]]);
        assert!(document.chars().all(|character| character == '\n' || !is_invisible(character)));
    }
}
