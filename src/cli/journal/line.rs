//! Problems of lines: what is wrong, where in the line, and what to do.

use crate::diag::{Code, Diagnostic, SourceId, Sources, Span};
use crate::journal::{BadLine, Line};
use std::collections::BTreeMap;

/// A source that has the text of some lines only: the others are empty, so that the numbers are right.
pub(in crate::cli) struct Excerpt {
    source: SourceId,
    /// Where each line begins that has a text.
    starts: BTreeMap<usize, usize>,
}

impl Excerpt {
    /// From lines in the order of their numbers.
    pub(in crate::cli) fn new<'a>(
        name: &str,
        lines: impl IntoIterator<Item = (usize, &'a str)>,
        sources: &mut Sources,
    ) -> Self {
        let mut text = String::new();
        let mut starts = BTreeMap::new();
        let mut at = 1;
        for (number, line) in lines {
            text.extend(std::iter::repeat_n('\n', number - at));
            starts.insert(number, text.len());
            text.push_str(line);
            at = number;
        }
        Self { source: sources.add(name, text), starts }
    }

    /// Where a key stands in a line; the start of the line where there is no such key.
    pub(in crate::cli) fn key(&self, line: usize, key: &str, sources: &Sources) -> Span {
        let (start, text) = self.line(line, sources);
        let quoted = format!("\"{key}\":");
        match text.find(&quoted) {
            None => self.start_of(line, sources),
            Some(at) => {
                let value = &text[at + quoted.len()..];
                // A value as far as it is simple.
                let length = value.find([',', '}', '{', '[']).unwrap_or(value.len());
                self.span(start + at, start + at + quoted.len() + length)
            }
        }
    }

    fn start_of(&self, line: usize, sources: &Sources) -> Span {
        let (start, text) = self.line(line, sources);
        let length = text.char_indices().nth(SHOWN).map_or(text.len(), |(at, _)| at);
        self.span(start, start + length)
    }

    /// The column counts bytes from 1.
    pub(in crate::cli) fn column(&self, line: usize, column: usize, sources: &Sources) -> Span {
        let (start, text) = self.line(line, sources);
        let at = start + column.saturating_sub(1).min(text.len());
        self.span(at, (at + 1).min(start + text.len()))
    }

    fn end_of(&self, line: usize, sources: &Sources) -> Span {
        let (start, text) = self.line(line, sources);
        self.span(start + text.len(), start + text.len())
    }

    fn span(&self, start: usize, end: usize) -> Span {
        Span { source: self.source, start, end }
    }

    /// Where a line begins, and its text.
    fn line<'a>(&self, line: usize, sources: &'a Sources) -> (usize, &'a str) {
        let start = self.starts.get(&line).copied().unwrap_or_default();
        let rest = &sources.get(self.source).text[start..];
        (start, &rest[..rest.find('\n').unwrap_or(rest.len())])
    }
}

/// How many characters are marked where a whole line is meant.
const SHOWN: usize = 30;

/// A line that is no record.
pub(super) fn bad(why: &BadLine, line: usize, excerpt: &Excerpt, sources: &Sources) -> Diagnostic {
    let (message, place, help) = match why {
        BadLine::CutOff => (
            "this line is cut off".to_owned(),
            excerpt.end_of(line, sources),
            "the program or the power ended while it was written, so it was never acknowledged: leave it, or take the \
             line out while no till runs",
        ),
        BadLine::TooLong => (
            format!("this line is {why}"),
            excerpt.start_of(line, sources),
            "no try is so long: something else was written into the journal; take it out while no till runs",
        ),
        BadLine::Version(_) => (
            format!("this line {why}"),
            excerpt.key(line, "schema", sources),
            "a newer program wrote it: read the journal with that one",
        ),
        BadLine::Value { key, .. } => (
            format!("in this line {why}"),
            excerpt.key(line, key.rsplit('.').next().unwrap_or(key), sources),
            "correct it while no till runs, if you know what was meant; docs/journal.md has the keys",
        ),
        BadLine::NoRecord(said) => {
            let (said, place) = match said.split_once(" at line 1 column ") {
                Some((said, column)) => (said, excerpt.column(line, column.parse().unwrap_or(1), sources)),
                None => (said.as_str(), excerpt.start_of(line, sources)),
            };
            let help = "every line is one object with the keys of docs/journal.md and no others";
            (format!("this line is no record: {said}"), place, help)
        }
    };
    Diagnostic::error(Code("journal-line"), message).at(place, "").help(help)
}

/// The text of a line with its number.
pub(super) fn numbered(line: &Line) -> (usize, String) {
    (line.number, line.text())
}
