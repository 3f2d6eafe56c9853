//! Why a harmless document can't be read into its type: the slow way, taken only after the fast one failed.

use super::offsets::Offsets;
use super::places::{Places, stretch};
use super::{patient, syntax};
use crate::diag::{Diagnostic, Span};
use serde::de::DeserializeOwned;

/// What can be read of the document, and every problem of it; never none.
pub(super) fn read<T: DeserializeOwned>(places: &Places<'_>, text: &str, problems: &mut Vec<Diagnostic>) -> Option<T> {
    let value = patient::read(places, problems);
    if problems.is_empty() {
        problems.push(in_own_words::<T>(places, text));
        return None;
    }
    value
}

/// The typed parser's own words, for a text on which the two parsers disagree.
fn in_own_words<T: DeserializeOwned>(places: &Places<'_>, text: &str) -> Diagnostic {
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
