//! Reads YAML: the only module that knows which parsers do it.
//!
//! A document goes through two parsers. The first pass tells where everything stands and refuses what a
//! profile has no use for (anchors, tags, deep nesting), so that the second, typed one only meets harmless
//! text. Before that the tree of the first pass is decoded with patience: what doesn't fit is noted and filled in,
//! so that one run tells all the problems of a file. A short text without anything odd skips all this, and takes
//! the long way only when the typed parser refuses it.
//!
//! The patient decoder takes it that every struct refuses unknown keys and that every number is finite, as in
//! `profile::raw`.
//!
//! All work grows with the length of the text and no faster, whatever the text says: docs/hostile-input.md.

mod around;
mod first_pass;
mod offsets;
mod patient;
mod places;
mod plain;
mod ration;
mod scalars;
mod syntax;
mod typed;
mod wording;

pub(crate) use places::Places;
pub(crate) use wording::visible;

use crate::diag::{Code, Diagnostic, SourceId, in_order};
use first_pass::first_pass;
use plain::is_plain;
use serde::de::DeserializeOwned;

/// The largest text that is read, in bytes. A large family of helmets takes about 100 KB.
pub const MOST_BYTES: usize = 4 * 1024 * 1024;

/// What a document holds, as far as it can be read.
pub(crate) struct Document<'t, T> {
    /// `None` where its parts can't be told apart. Where a part can't be read, a harmless value stands in its place,
    /// and one of the problems lies there.
    pub(crate) value: Option<T>,
    pub(crate) places: Places<'t>,
    /// All that can be told apart, in order of place.
    pub(crate) problems: Vec<Diagnostic>,
}

/// Reads one document into `T`. The text comes from [`text_of`] and is the one that `source` names.
///
/// A text with nothing in it that the first pass looks for is decoded without it: that saves half of the time at
/// every start, and the first pass runs once a place is asked for.
pub(crate) fn read<T: DeserializeOwned>(source: SourceId, text: &str) -> Document<'_, T> {
    if is_plain(text)
        && let Ok(value) = decode(text)
    {
        return Document { value: Some(value), places: Places::later(source, text), problems: Vec::new() };
    }
    read_carefully(source, text)
}

fn read_carefully<T: DeserializeOwned>(source: SourceId, text: &str) -> Document<'_, T> {
    let first = first_pass(source, text);
    let places = Places::new(source, first.tree);
    let mut problems = first.problems;
    let mut value = None;
    if first.is_complete {
        value = patient::read(&places, &mut problems);
    }
    if problems.is_empty() {
        value = decode(text).ok();
        if value.is_none() {
            problems.push(typed::in_own_words::<T>(&places, text));
        }
    }
    Document { value, places, problems: in_order(problems) }
}

/// The text of a file: at most 4 MiB of UTF-8, without a byte order mark.
///
/// # Errors
///
/// What is wrong with the bytes, if they aren't such a text.
#[expect(clippy::result_large_err, reason = "happens once a file at most")]
pub fn text_of(name: &str, bytes: Vec<u8>) -> Result<String, Diagnostic> {
    if bytes.len() > MOST_BYTES {
        return Err(too_large(name));
    }
    let mut text = String::from_utf8(bytes).map_err(|error| not_utf8(name, &error))?;
    if text.starts_with('\u{feff}') {
        text.drain(..'\u{feff}'.len_utf8());
    }
    Ok(text)
}

fn decode<T: DeserializeOwned>(text: &str) -> Result<T, serde_yaml::Error> {
    T::deserialize(serde_yaml::Deserializer::from_str(text))
}

fn too_large(name: &str) -> Diagnostic {
    let message = format!("{} holds more than the {MOST_BYTES} bytes that are read", wording::visible(name));
    Diagnostic::error(Code("yaml-too-large"), message).help("split it into several files")
}

fn not_utf8(name: &str, error: &std::string::FromUtf8Error) -> Diagnostic {
    let bytes = error.as_bytes();
    let good = error.utf8_error().valid_up_to();
    let line = bytes[..good].iter().filter(|byte| **byte == b'\n').count() + 1;
    let is_utf16 = bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]);
    let found = if is_utf16 { "UTF-16" } else { "not UTF-8" };
    let message = format!("{} is {found} text: byte {} (line {line}) can't be read", wording::visible(name), good + 1);
    Diagnostic::error(Code("yaml-encoding"), message).help("save the file again with the encoding UTF-8")
}

#[cfg(test)]
mod tests;
