//! What of a text is drawn around the places of a problem: the lines that they are on, never the whole text.
//!
//! A drawing costs time for every byte that it is made of, and a text may have millions, on one line or on many.

use super::one_line;
use crate::diag::{Label, Position, SourceId, Sources};
use annotate_snippets::AnnotationKind;
use itertools::Itertools;
use std::ops::Range;

/// How many bytes are drawn in one piece. Places further from each other are drawn apart.
const MOST_BYTES: usize = 16 * 1024;

/// How many bytes of a line that is longer still are drawn before and behind a place.
const AROUND: usize = 400;

/// A piece of a source, and what to mark in it.
pub(super) struct Excerpt<'a> {
    pub(super) name: String,
    pub(super) text: &'a str,
    /// The number of its first line.
    pub(super) line: usize,
    pub(super) marks: Vec<Mark<'a>>,
    /// Name, line and column as they are drawn, and as they are: they differ where the start of a line is left out.
    pub(super) correction: Option<(String, String)>,
}

/// A place within an excerpt.
pub(super) struct Mark<'a> {
    pub(super) kind: AnnotationKind,
    pub(super) place: Range<usize>,
    pub(super) words: &'a str,
}

/// A label with the lines that it takes.
struct Placed<'a> {
    kind: AnnotationKind,
    words: &'a str,
    /// Within its first line: where to look, not all there is to see.
    place: Range<usize>,
    at: Position,
    line: Range<usize>,
}

/// One excerpt for the places in each source that lie near each other, that of the problem itself first.
pub(super) fn excerpts<'a>(labels: Vec<(AnnotationKind, &'a Label)>, sources: &'a Sources) -> Vec<Excerpt<'a>> {
    let mut shown = Vec::new();
    for id in labels.iter().map(|(_, label)| label.span.source).unique() {
        let own = labels.iter().filter(|(_, label)| label.span.source == id);
        let placed = own.map(|(kind, label)| placed(*kind, label, sources)).collect_vec();
        let lines = hull(&placed);
        if lines.len() <= MOST_BYTES {
            shown.push(whole_lines(id, lines, placed, sources));
        } else {
            shown.extend(placed.into_iter().map(|label| apart(id, label, sources)));
        }
    }
    shown
}

fn hull(placed: &[Placed<'_>]) -> Range<usize> {
    let start = placed.iter().map(|label| label.line.start).min().unwrap_or_default();
    start..placed.iter().map(|label| label.line.end).max().unwrap_or(start)
}

/// Looks at no more of the text than can be drawn.
fn placed<'a>(kind: AnnotationKind, label: &'a Label, sources: &Sources) -> Placed<'a> {
    let text = sources.get(label.span.source).text.as_str();
    let start = boundary(text, label.span.start);
    let end = boundary(text, label.span.end.max(start));
    let at = sources.position(label.span.source, start);
    let seen = &text[start..boundary(text, end.min(start + MOST_BYTES))];
    let end = seen.find(['\r', '\n']).map_or(start + seen.len(), |length| start + length);
    let rest = &text[end..boundary(text, end + MOST_BYTES)];
    // Without a break there the line is too long to be drawn as a whole.
    let line_end = rest.find('\n').map_or(end + rest.len(), |length| end + length + 1);
    Placed { kind, words: &label.text, place: start..end, at, line: at.line_start..line_end }
}

fn whole_lines<'a>(id: SourceId, lines: Range<usize>, placed: Vec<Placed<'a>>, sources: &'a Sources) -> Excerpt<'a> {
    let source = sources.get(id);
    let line = placed.iter().map(|label| label.at.line).min().unwrap_or(1);
    let marks = placed.into_iter().map(|label| mark(label, lines.start)).collect();
    Excerpt { name: one_line(&source.name), text: &source.text[lines], line, marks, correction: None }
}

/// A label alone, with as much of its line as can be drawn.
fn apart<'a>(id: SourceId, mut label: Placed<'a>, sources: &'a Sources) -> Excerpt<'a> {
    if label.line.len() <= MOST_BYTES {
        return whole_lines(id, label.line.clone(), vec![label], sources);
    }
    let source = sources.get(id);
    let text = source.text.as_str();
    label.place.end = boundary(text, label.place.end.min(label.place.start + AROUND));
    let start = boundary(text, label.place.start.saturating_sub(AROUND)).max(label.line.start);
    let end = boundary(text, label.place.end + AROUND).min(label.line.end);
    let name = one_line(&source.name);
    let Position { line, column, .. } = label.at;
    let drawn = text[start..label.place.start].chars().count() + 1;
    let correction = Some((format!("{name}:{line}:{drawn}"), format!("{name}:{line}:{column}")));
    Excerpt { name, text: &text[start..end], line, marks: vec![mark(label, start)], correction }
}

fn mark(label: Placed<'_>, start: usize) -> Mark<'_> {
    Mark { kind: label.kind, place: label.place.start - start..label.place.end - start, words: label.words }
}

/// The nearest boundary of a character at or before an offset: a wrong place is no reason not to draw the problem.
fn boundary(text: &str, offset: usize) -> usize {
    let near = (0..=offset.min(text.len())).rev().find(|at| text.is_char_boundary(*at));
    near.unwrap_or_default()
}
