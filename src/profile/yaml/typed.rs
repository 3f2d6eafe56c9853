//! Why a document can't be read into its type although nobody found a fault in it.

use super::offsets::Offsets;
use super::places::{Places, stretch};
use super::syntax;
use crate::diag::{Diagnostic, Span};
use serde::de::DeserializeOwned;

/// The typed parser's own words, for a text on which the two parsers disagree.
pub(super) fn in_own_words<T: DeserializeOwned>(places: &Places<'_>, text: &str) -> Diagnostic {
    match serde_path_to_error::deserialize::<_, T>(serde_yaml::Deserializer::from_str(text)) {
        Ok(_) => syntax::error("its parts don't fit together", places.value("")),
        Err(error) => {
            let location = error.inner().location();
            let place = location.map_or_else(
                || places.value(&error.path().to_string()),
                |location| character(places, text, location.index()),
            );
            syntax::error(&error.inner().to_string(), place)
        }
    }
}

/// The place of one character, counted from the start of the text.
fn character(places: &Places<'_>, text: &str, number: usize) -> Span {
    let offsets = Offsets::new(text);
    let start = offsets.byte(number);
    let is_line_end = text[start..].starts_with(['\n', '\r']);
    places.span(stretch(start, if is_line_end { start } else { offsets.byte(number + 1) }))
}
