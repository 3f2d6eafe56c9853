//! From byte offsets to lines and columns, without a walk from the start of the text for each.

/// How many bytes lie between two noted offsets.
const STRIDE: usize = 1024;

/// Where the lines of one text begin, as far as it takes to find any place quickly.
#[derive(Debug, Clone)]
pub(super) struct Lines {
    /// What lies before every 1024th byte.
    noted: Vec<Position>,
}

/// A place as a person counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Position {
    /// From 1.
    pub(crate) line: usize,
    /// From 1; counts characters.
    pub(crate) column: usize,
    /// The byte at which the line begins.
    pub(crate) line_start: usize,
}

impl Lines {
    /// Looks through the text once.
    pub(super) fn new(text: &str) -> Self {
        let bytes = text.as_bytes();
        let mut at = Position { line: 1, column: 1, line_start: 0 };
        let mut noted = Vec::with_capacity(bytes.len() / STRIDE + 1);
        for (number, part) in bytes.chunks(STRIDE).enumerate() {
            noted.push(at);
            at = at.behind(part, number * STRIDE);
        }
        Self { noted }
    }

    /// The place of a byte of the text that the lines were made of; of its end for every later one.
    pub(super) fn position(&self, text: &str, offset: usize) -> Position {
        let offset = offset.min(text.len());
        // The end of a text may lie right behind its last stretch.
        let number = (offset / STRIDE).min(self.noted.len().saturating_sub(1));
        let Some(near) = self.noted.get(number) else { return Position { line: 1, column: 1, line_start: 0 } };
        near.behind(&text.as_bytes()[number * STRIDE..offset], number * STRIDE)
    }
}

impl Position {
    /// The place behind some more bytes, the first of which is that of number `start`.
    fn behind(mut self, bytes: &[u8], start: usize) -> Self {
        for (at, byte) in (start..).zip(bytes) {
            if *byte == b'\n' {
                self = Self { line: self.line + 1, column: 1, line_start: at + 1 };
            } else if (*byte & 0xc0) != 0x80 {
                // The first byte of a character.
                self.column += 1;
            }
        }
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case::empty(String::new())]
    #[case::short("a: é\n\tb\r\n".to_owned())]
    #[case::one_long_line("é€x".repeat(1500))]
    #[case::many_lines("ab: €\n\n".repeat(900))]
    #[case::exactly_one_stride("x".repeat(STRIDE))]
    #[case::a_break_at_the_stride(format!("{}\ny", "x".repeat(STRIDE - 1)))]
    fn every_place_is_where_a_walk_finds_it(#[case] text: String) {
        let lines = Lines::new(&text);
        let (mut line, mut column, mut line_start) = (1, 1, 0);
        for (offset, character) in text.char_indices() {
            assert_eq!(lines.position(&text, offset), Position { line, column, line_start });
            column += 1;
            if character == '\n' {
                (line, column, line_start) = (line + 1, 1, offset + 1);
            }
        }
        let end = Position { line, column, line_start };
        assert_eq!(lines.position(&text, text.len()), end);
        assert_eq!(lines.position(&text, text.len() + 99), end);
    }
}
