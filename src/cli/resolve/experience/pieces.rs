//! Parts of a typed text, each with its own place.

use crate::diag::{Said, Span};
use std::ops::Range;

/// The parts between separators.
pub(super) fn pieces(said: &Said, separator: char) -> Vec<Said> {
    pieces_where(said, |at, character| character == separator && !is_in_sign(&said.text, at))
}

/// The parts before and behind the first separator.
pub(super) fn halves(said: &Said, separator: char) -> Option<(Said, Said)> {
    let at = said.text.find(separator)?;
    Some((piece(said, 0..at), piece(said, at + separator.len_utf8()..said.text.len())))
}

/// Without white space at both ends.
pub(super) fn trimmed(said: &Said) -> Said {
    let start = said.text.len() - said.text.trim_start().len();
    piece(said, start..start + said.text.trim().len())
}

fn pieces_where(said: &Said, is_separator: impl Fn(usize, char) -> bool) -> Vec<Said> {
    let mut found = Vec::new();
    let mut start = 0;
    for (at, character) in said.text.char_indices().filter(|(at, character)| is_separator(*at, *character)) {
        found.push(piece(said, start..at));
        start = at + character.len_utf8();
    }
    found.push(piece(said, start..said.text.len()));
    found
}

/// Whether the slash at this place is that of `+/-`.
fn is_in_sign(text: &str, at: usize) -> bool {
    text[..at].ends_with('+') && text[at..].starts_with("/-")
}

fn piece(said: &Said, range: Range<usize>) -> Said {
    // A text in quotes or on several lines doesn't stand in its file letter by letter: then the whole is the place.
    let is_literal = said.span.end - said.span.start == said.text.len();
    let part = Span { start: said.span.start + range.start, end: said.span.start + range.end, ..said.span };
    Said { text: said.text[range].to_owned(), span: if is_literal { part } else { said.span } }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diag::Sources;

    #[test]
    fn every_piece_knows_its_place() {
        let mut sources = Sources::default();
        let said = sources.say("--tried", "M/ 575+/-3 /größe/fits");
        let parts = pieces(&said, '/');
        let texts: Vec<&str> = parts.iter().map(|part| part.text.as_str()).collect();
        assert_eq!(texts, ["M", " 575+/-3 ", "größe", "fits"]);
        for part in &parts {
            assert_eq!(said.text[part.span.start..part.span.end], part.text);
            let inner = trimmed(part);
            assert_eq!(said.text[inner.span.start..inner.span.end], inner.text);
        }
        assert_eq!(trimmed(&parts[1]).text, "575+/-3");
    }

    #[test]
    fn a_quoted_text_is_one_place() {
        let mut sources = Sources::default();
        let whole = sources.say("a.yaml", "\"M/575\"");
        let said = Said { text: "M/575".to_owned(), span: whole.span };
        assert!(pieces(&said, '/').iter().all(|part| part.span == whole.span));
    }
}
