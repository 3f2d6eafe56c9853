//! What is wrong with something a person wrote: facts with places, not strings.
//!
//! A [`Diagnostic`] says what is wrong, where, and what to do. Drawing it is the work of
//! `render::diagnostics`; nothing here knows a terminal or a file system.

mod invisible;
mod lines;
mod problems;

pub use invisible::is_invisible;
pub(crate) use lines::Position;
pub use problems::{MOST_PROBLEMS, in_order, is_full, more, note};

use lines::Lines;
use std::ops::Range;
use std::sync::OnceLock;

/// The stable name of a kind of problem, in kebab-case (`unknown-model`). It never changes its meaning.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Code(pub &'static str);

/// How bad a problem is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// The input can't be used as it stands.
    Error,
    /// The input is used, but a person should look.
    Warning,
}

/// One text that problems can point into: a profile file, a customer file, or an option as it was typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Source {
    /// How a reader finds it: a path, or `--circumference` for an option.
    pub name: String,
    /// The whole text, without a byte order mark, or an excerpt of a text that is too long to be held.
    pub text: String,
    /// The number of its first line: 1 but for an excerpt.
    pub first_line: usize,
}

/// All the texts of one run. Spans refer to them by [`SourceId`].
#[derive(Debug, Clone, Default)]
pub struct Sources {
    sources: Vec<Source>,
    /// Where the lines of each begin, once somebody asks.
    lines: Vec<OnceLock<Lines>>,
}

/// Which of the [`Sources`] a span lies in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SourceId(usize);

/// A stretch of a source: byte offsets, half open, on character boundaries.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Span {
    /// The source it lies in.
    pub source: SourceId,
    /// First byte.
    pub start: usize,
    /// One past the last byte.
    pub end: usize,
}

/// A place with words beside it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Label {
    /// Where.
    pub span: Span,
    /// What to see there; may be empty.
    pub text: String,
}

/// Something that a person wrote, and where.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Said {
    /// As it was written.
    pub text: String,
    /// Where.
    pub span: Span,
}

/// One problem.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Diagnostic {
    /// Its stable name.
    pub code: Code,
    /// How bad it is.
    pub severity: Severity,
    /// What is wrong, in one sentence without a full stop.
    pub message: String,
    /// Where it is; absent when the problem has no place (a missing file).
    pub place: Option<Label>,
    /// Places that explain it (where the other of two duplicates stands).
    pub related: Vec<Label>,
    /// What to do about it.
    pub help: Option<String>,
}

impl Sources {
    /// Takes a text in and returns the name by which spans refer to it.
    pub fn add(&mut self, name: impl Into<String>, text: impl Into<String>) -> SourceId {
        self.add_excerpt(name, 1, text)
    }

    /// Takes in lines of a text, the first of which has this number there.
    pub fn add_excerpt(&mut self, name: impl Into<String>, first_line: usize, text: impl Into<String>) -> SourceId {
        self.sources.push(Source { name: name.into(), text: text.into(), first_line });
        self.lines.push(OnceLock::new());
        SourceId(self.sources.len() - 1)
    }

    /// The text behind an id.
    #[must_use]
    pub fn get(&self, id: SourceId) -> &Source {
        &self.sources[id.0]
    }

    /// All ids, in the order in which the texts came.
    pub fn ids(&self) -> impl Iterator<Item = SourceId> + use<> {
        (0..self.sources.len()).map(SourceId)
    }

    /// Takes in a text that is one single thing, such as the value of an option.
    pub fn say(&mut self, name: impl Into<String>, text: impl Into<String>) -> Said {
        let source = self.add(name, text);
        let text = self.get(source).text.clone();
        Said { span: Span { source, start: 0, end: text.len() }, text }
    }

    /// Where a part of something said stands: the whole of it, where its text isn't written as it is meant (in quotes,
    /// with escapes, on several lines).
    #[must_use]
    pub fn part(&self, said: &Said, part: Range<usize>) -> Span {
        let Span { source, start, end } = said.span;
        let is_verbatim = self.get(source).text.get(start..end) == Some(said.text.as_str());
        if is_verbatim { Span { source, start: start + part.start, end: start + part.end } } else { said.span }
    }

    /// Line and column of a span's start, both from 1; the column counts characters.
    #[must_use]
    pub fn line_column(&self, span: Span) -> (usize, usize) {
        let Position { line, column, .. } = self.position(span.source, span.start);
        (line, column)
    }

    /// Where a byte of a source stands.
    pub(crate) fn position(&self, id: SourceId, offset: usize) -> Position {
        let Source { text, first_line, .. } = self.get(id);
        let position = self.lines[id.0].get_or_init(|| Lines::new(text)).position(text, offset);
        Position { line: position.line + first_line - 1, ..position }
    }
}

impl SourceId {
    /// Its place among the [`Sources`].
    #[must_use]
    pub fn number(self) -> usize {
        self.0
    }
}

impl Span {
    /// The empty stretch at its end.
    #[must_use]
    pub fn end(self) -> Self {
        Self { start: self.end, ..self }
    }

    /// Whether the other one begins in it.
    #[must_use]
    pub fn holds_start_of(self, other: Self) -> bool {
        self.source == other.source && (self.start..self.end.max(self.start + 1)).contains(&other.start)
    }
}

impl Diagnostic {
    /// An error without a place yet.
    #[must_use]
    pub fn error(code: Code, message: impl Into<String>) -> Self {
        Self::new(code, Severity::Error, message)
    }

    /// A warning without a place yet.
    #[must_use]
    pub fn warning(code: Code, message: impl Into<String>) -> Self {
        Self::new(code, Severity::Warning, message)
    }

    /// Says where it is, with words to show beside the place.
    #[must_use]
    pub fn at(mut self, span: Span, text: impl Into<String>) -> Self {
        self.place = Some(Label { span, text: text.into() });
        self
    }

    /// Adds a place that explains it.
    #[must_use]
    pub fn see(mut self, span: Span, text: impl Into<String>) -> Self {
        self.related.push(Label { span, text: text.into() });
        self
    }

    /// Says what to do.
    #[must_use]
    pub fn help(mut self, text: impl Into<String>) -> Self {
        self.help = Some(text.into());
        self
    }

    /// Whether it keeps the input from being used.
    #[must_use]
    pub fn is_error(&self) -> bool {
        self.severity == Severity::Error
    }

    fn new(code: Code, severity: Severity, message: impl Into<String>) -> Self {
        Self { code, severity, message: message.into(), place: None, related: Vec::new(), help: None }
    }
}

/// The longest text that may be a mistyped name. Comparing takes the longer the longer the text is.
const LONGEST_TYPED: usize = 100;

/// The known name nearest to a mistyped one, when it is near enough to be meant.
#[must_use]
pub fn nearest<'a>(typed: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    if typed.len() > LONGEST_TYPED {
        return None;
    }
    known
        .into_iter()
        .map(|name| (strsim::jaro_winkler(typed, name), name))
        .filter(|(likeness, _)| *likeness > 0.8)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, name)| name)
}

/// How many known names a message lists.
const MOST_KNOWN: usize = 40;

/// What to do about an unknown name: the one that was probably meant, or the known ones as far as they are of help.
#[must_use]
pub fn known_here(typed: &str, known: &[&str]) -> String {
    if let Some(near) = nearest(typed, known.iter().copied()) {
        return format!("did you mean `{near}`?");
    }
    let listed = known[..known.len().min(MOST_KNOWN)].join(", ");
    match known.len().saturating_sub(MOST_KNOWN) {
        0 => format!("known here: {listed}"),
        more => format!("known here: {listed} and {more} more"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_count_characters_from_one() {
        let mut sources = Sources::default();
        let source = sources.add("a.yaml", "one\nzwö: \tx\n");
        let start = sources.get(source).text.find('x').unwrap();
        assert_eq!(sources.line_column(Span { source, start, end: start + 1 }), (2, 7));
    }

    #[test]
    fn an_excerpt_has_the_lines_of_its_text() {
        let mut sources = Sources::default();
        let source = sources.add_excerpt("a.csv", 40, "575\n57,5\n");
        assert_eq!(sources.line_column(Span { source, start: 6, end: 7 }), (41, 3));
    }

    #[test]
    fn a_part_is_shown_where_the_text_stands_as_it_is_meant() {
        let mut sources = Sources::default();
        let source = sources.add("a.yaml", r#"a: 57,5 b: "\L\Lé,é""#);
        let said =
            |text: &str, start: usize, end: usize| Said { text: text.to_owned(), span: Span { source, start, end } };
        assert_eq!(sources.part(&said("57,5", 3, 7), 2..3), Span { source, start: 5, end: 6 });
        let escaped = said("\u{2028}\u{2028}é,é", 11, 22);
        assert_eq!(escaped.text.len(), 11);
        assert_eq!(sources.part(&escaped, 8..9), escaped.span);
    }

    #[test]
    fn only_a_near_name_is_offered() {
        assert_eq!(nearest("temples-pres", ["temples-press", "cheeks-loose"]), Some("temples-press"));
        assert_eq!(nearest("qqq", ["temples-press"]), None);
        assert_eq!(nearest(&"temples-press".repeat(1000), ["temples-press"]), None);
    }

    #[test]
    fn a_message_lists_a_few_known_names() {
        assert_eq!(known_here("temples-pres", &["temples-press", "b"]), "did you mean `temples-press`?");
        assert_eq!(known_here("qqq", &["a", "b"]), "known here: a, b");
        let told = known_here("qqq", &["a"; 1000]);
        assert!(told.len() < 200 && told.ends_with(", a and 960 more"), "{told}");
    }
}
