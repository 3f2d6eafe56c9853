//! Draws problems as the lines they stand on, with a sign under the place and words beside it.

mod excerpt;

use crate::diag::{Diagnostic, Severity, Sources, is_invisible};
use annotate_snippets::{Annotation, AnnotationKind, Group, Level, Renderer, Snippet};
use excerpt::{Excerpt, excerpts};
use itertools::Itertools;
use std::borrow::Cow;
use unicode_width::UnicodeWidthStr;

/// The width that text is broken at. A line of a source is never broken, only shortened.
const COLUMNS: usize = 80;

/// How many characters of a message are shown.
const MOST_CHARACTERS: usize = 2000;

/// The sign for a character that has none of its own.
const UNKNOWN: char = char::REPLACEMENT_CHARACTER;

/// How the drawing is coloured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Style {
    /// Without any control characters.
    Plain,
    /// With the colours that a terminal shows.
    Coloured,
}

/// Draws problems one after another, in order of place, errors and warnings together, ending with a line
/// that counts them. Nothing is drawn for no problems.
///
/// Control characters of any text are drawn as visible signs one column wide, so that a file can neither move
/// the cursor nor turn the direction of reading.
#[must_use]
pub fn render(diagnostics: &[Diagnostic], sources: &Sources, style: Style) -> String {
    let mut drawing = draw_all(diagnostics, sources, style);
    if !diagnostics.is_empty() {
        drawing.push_str(&count(diagnostics));
        drawing.push('\n');
    }
    drawing
}

/// The same without the line that counts them.
pub(super) fn draw_all(diagnostics: &[Diagnostic], sources: &Sources, style: Style) -> String {
    let renderer = match style {
        Style::Plain => Renderer::plain(),
        Style::Coloured => Renderer::styled(),
    }
    .term_width(COLUMNS);
    let mut sorted: Vec<_> = diagnostics.iter().collect();
    // Problems without a place come first: a missing file may explain the others.
    sorted.sort_by_key(|diagnostic| diagnostic.place.as_ref().map(|label| label.span));
    sorted.into_iter().map(|diagnostic| draw(diagnostic, sources, &renderer) + "\n\n").collect()
}

/// How many there are of each severity: `1 error, 2 warnings`.
pub(super) fn count(diagnostics: &[Diagnostic]) -> String {
    let errors = diagnostics.iter().filter(|diagnostic| diagnostic.is_error()).count();
    let counted = [(errors, "error"), (diagnostics.len() - errors, "warning")];
    counted.iter().filter(|(number, _)| *number > 0).map(|(number, noun)| numbered(*number, noun)).join(", ")
}

/// `1 error`, `2 errors`.
pub(super) fn numbered(number: usize, noun: &str) -> String {
    format!("{number} {noun}{}", if number == 1 { "" } else { "s" })
}

fn draw(diagnostic: &Diagnostic, sources: &Sources, renderer: &Renderer) -> String {
    let (level, name) = match diagnostic.severity {
        Severity::Error => (Level::ERROR, "error"),
        Severity::Warning => (Level::WARNING, "warning"),
    };
    let indent = name.len() + diagnostic.code.0.len() + "[]: ".len();
    let title = level.primary_title(wrapped(&diagnostic.message, indent)).id(diagnostic.code.0);
    let primary = diagnostic.place.iter().map(|label| (AnnotationKind::Primary, label));
    let related = diagnostic.related.iter().map(|label| (AnnotationKind::Context, label));
    let shown = excerpts(primary.chain(related).collect(), sources);
    let mut group = Group::with_title(title).elements(shown.iter().map(snippet));
    if let Some(help) = &diagnostic.help {
        // A line number of up to four digits and `= help: ` stand before the words.
        group = group.element(Level::HELP.message(wrapped(help, 13)));
    }
    let drawing = renderer.render(&[group]);
    shown.iter().filter_map(|excerpt| excerpt.correction.as_ref()).fold(drawing, |drawing, (drawn, right)| {
        // The title, which stands before it, is no place where anybody looks for a line and a column.
        drawing.replacen(drawn, right, 1)
    })
}

fn snippet<'a>(excerpt: &'a Excerpt<'a>) -> Snippet<'a, Annotation<'a>> {
    let annotations = excerpt.marks.iter().map(|mark| {
        let range = in_visible(excerpt.text, mark.place.start)..in_visible(excerpt.text, mark.place.end);
        // An empty label would leave a space at the end of the line.
        mark.kind.span(range).label((!mark.words.is_empty()).then(|| one_line(mark.words)))
    });
    Snippet::source(visible(excerpt.text)).line_start(excerpt.line).path(excerpt.name.as_str()).annotations(annotations)
}

/// Where an offset into a text lies when the text is made visible.
fn in_visible(text: &str, offset: usize) -> usize {
    signs(text).take_while(|(at, _)| *at < offset).map(|(_, shown)| shown.len_utf8()).sum()
}

/// The text with a sign one column wide in place of each character that a terminal would obey.
fn visible(text: &str) -> Cow<'_, str> {
    let is_visible = signs(text).zip(text.chars()).all(|((_, shown), character)| shown == character);
    if is_visible { Cow::Borrowed(text) } else { signs(text).map(|(_, shown)| shown).collect() }
}

/// What is shown for each character of a text, with its offset.
fn signs(text: &str) -> impl Iterator<Item = (usize, char)> {
    text.char_indices().map(|(at, character)| {
        let ends_line = character == '\r' && text[at + 1..].starts_with('\n');
        (at, if ends_line { character } else { sign(character) })
    })
}

/// The same for a text that has to stay on one line.
pub(crate) fn one_line(text: &str) -> String {
    visible(text).replace(['\r', '\n', '\t'], &UNKNOWN.to_string())
}

/// The sign for a character that does something other than stand there, except for those that make lines and columns.
fn sign(character: char) -> char {
    match character {
        '\n' | '\t' => character,
        // Unicode has a picture of each.
        '\0'..='\u{1f}' => char::from_u32(0x2400 + u32::from(character)).unwrap_or(UNKNOWN),
        '\u{7f}' => '\u{2421}',
        _ if is_invisible(character) => UNKNOWN,
        _ => character,
    }
}

/// What is shown of a message: the start of one that repeats too much.
fn cut(text: &str) -> Cow<'_, str> {
    match text.char_indices().nth(MOST_CHARACTERS) {
        Some((end, _)) => Cow::Owned(format!("{}…", &text[..end])),
        None => Cow::Borrowed(text),
    }
}

/// The words on as many lines as they need; the first line starts behind `indent` columns, and so do the
/// others, because the renderer indents them.
fn wrapped(text: &str, indent: usize) -> String {
    let room = COLUMNS.saturating_sub(indent).max(COLUMNS / 2);
    let mut lines = String::new();
    let mut used = 0;
    for word in one_line(&cut(text)).split(' ') {
        let width = word.width();
        if used > 0 && used + 1 + width > room {
            lines.push('\n');
            used = 0;
        } else if used > 0 {
            lines.push(' ');
            used += 1;
        }
        lines.push_str(word);
        used += width;
    }
    lines
}

#[cfg(test)]
mod tests;
