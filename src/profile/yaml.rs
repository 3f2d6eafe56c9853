//! Reads YAML: the only module that knows which parsers do it.
//!
//! A document goes through two parsers. The first pass tells where everything stands and refuses what a
//! profile has no use for (anchors, tags, deep nesting), so that the second, typed one only meets harmless
//! text. When the typed one fails, the tree of the first pass is decoded once more with patience: what
//! doesn't fit is noted and filled in, so that one run tells all the problems of a file.
//!
//! The patient decoder takes it that every struct refuses unknown keys, as those of `profile::raw` do.

mod first_pass;
mod offsets;
mod patient;
mod places;
mod scalars;
mod syntax;
mod typed;
mod wording;

pub(crate) use places::Places;

use crate::diag::{Code, Diagnostic, SourceId};
use first_pass::first_pass;
use serde::de::DeserializeOwned;

/// The largest text that is read, in bytes. A large family of helmets takes about 100 KB.
const MOST_BYTES: usize = 4 * 1024 * 1024;

/// More problems than these help nobody; the rest are told on the next run.
const MOST_PROBLEMS: usize = 50;

/// A text to read.
#[derive(Debug, Clone, Copy)]
pub enum Document<'a> {
    /// Somebody wrote it; the text comes from [`text_of`].
    Written(&'a str),
    /// It is part of the program, and a test has read it as a written one. The first pass waits until a place is
    /// asked for, which saves half of the time at every start.
    BuiltIn(&'static str),
}

/// Reads a document into `T`; `source` names its text. All the problems that can be told apart come in one go.
pub(crate) fn read<T: DeserializeOwned>(
    source: SourceId,
    document: Document<'_>,
) -> Result<(T, Places), Vec<Diagnostic>> {
    match document {
        Document::Written(text) => read_written(source, text),
        Document::BuiltIn(text) => read_built_in(source, text),
    }
}

/// Reads one document into `T`. The text comes from [`text_of`] and is the one that `source` names.
///
/// All the problems of the text that can be told apart are told in one go, in order of place.
fn read_written<T: DeserializeOwned>(source: SourceId, text: &str) -> Result<(T, Places), Vec<Diagnostic>> {
    let first = first_pass(source, text);
    let places = Places::new(source, first.tree);
    let mut problems = first.problems;
    if problems.is_empty() {
        match decode(text) {
            Ok(value) => return Ok((value, places)),
            Err(_) => problems = typed::problems::<T>(&places, text),
        }
    } else if first.is_complete {
        problems.extend(patient::problems::<T>(&places));
    }
    Err(in_order(problems))
}

fn read_built_in<T: DeserializeOwned>(source: SourceId, text: &'static str) -> Result<(T, Places), Vec<Diagnostic>> {
    match decode(text) {
        Ok(value) => Ok((value, Places::later(source, text))),
        Err(_) => read_written(source, text),
    }
}

/// The text of a file: at most 4 MiB of UTF-8, without a byte order mark.
///
/// # Errors
///
/// What is wrong with the bytes, if they aren't such a text.
#[expect(clippy::result_large_err, reason = "happens once a file at most")]
pub fn text_of(name: &str, bytes: Vec<u8>) -> Result<String, Diagnostic> {
    if bytes.len() > MOST_BYTES {
        return Err(too_large(name, bytes.len()));
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

fn in_order(mut problems: Vec<Diagnostic>) -> Vec<Diagnostic> {
    problems.sort_by_key(|problem| problem.place.as_ref().map(|label| label.span));
    problems.truncate(MOST_PROBLEMS);
    problems
}

fn too_large(name: &str, bytes: usize) -> Diagnostic {
    let message = format!("{} holds {bytes} bytes, more than the {MOST_BYTES} that are read", wording::visible(name));
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
