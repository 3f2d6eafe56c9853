//! Where cells and lines of a table end: a comma or a line break within quotes ends nothing.

use std::ops::Range;

/// Where a byte finds itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Place {
    /// At the start of a cell: a quote here opens it.
    Start,
    /// In a cell without quotes.
    Plain,
    /// Within quotes.
    Quoted,
    /// Behind a quote within quotes: it closes the cell, or stands for itself if another one follows.
    Closing,
}

impl Place {
    fn behind(self, byte: u8) -> Self {
        match (self, byte) {
            (Self::Quoted, b'"') => Self::Closing,
            (Self::Quoted, _) | (Self::Start | Self::Closing, b'"') => Self::Quoted,
            (_, b',' | b'\n' | b'\r') => Self::Start,
            _ => Self::Plain,
        }
    }
}

/// How many bytes the whole lines among these take, a line break in quotes not counting; `None` where no line ends.
pub(super) fn whole_lines(bytes: &[u8]) -> Option<usize> {
    if !bytes.contains(&b'"') {
        return bytes.iter().rposition(|byte| *byte == b'\n').map(|at| at + 1);
    }
    let mut place = Place::Start;
    let mut end = None;
    for (at, byte) in bytes.iter().enumerate() {
        place = place.behind(*byte);
        if *byte == b'\n' && place == Place::Start {
            end = Some(at + 1);
        }
    }
    end
}

/// Where a cell of one line stands, its quotes included; the end of the line for one that it doesn't have.
pub(super) fn cell(line: &[u8], number: usize) -> Range<usize> {
    let mut place = Place::Start;
    let (mut start, mut before) = (0, 0);
    for (at, byte) in line.iter().enumerate() {
        place = place.behind(*byte);
        if *byte == b',' && place == Place::Start {
            if before == number {
                return start..at;
            }
            before += 1;
            start = at + 1;
        }
    }
    if before == number { start..line.len() } else { line.len()..line.len() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case::no_break("a,b", None)]
    #[case::one("a,b\nc", Some(4))]
    #[case::two("a\nb\nc", Some(4))]
    #[case::in_quotes("a\n\"b\nc", Some(2))]
    #[case::closed("a\n\"b\nc\"\nd", Some(8))]
    #[case::a_quote_for_itself("\"a\"\"\n\"\nb", Some(7))]
    #[case::a_quote_within_a_plain_cell("5\" tall\nb", Some(8))]
    #[case::behind_a_lone_carriage_return("a\r\"b\n\"\nc", Some(7))]
    fn lines_end_outside_of_quotes(#[case] text: &str, #[case] expected: Option<usize>) {
        assert_eq!(whole_lines(text.as_bytes()), expected);
    }

    #[rstest]
    #[case(0, "575")]
    #[case(1, "\"a,\"\"b\"")]
    #[case(2, "")]
    #[case(3, "190 ")]
    #[case(4, "")]
    fn a_cell_is_found(#[case] number: usize, #[case] expected: &str) {
        let line = "575,\"a,\"\"b\",,190 ";
        assert_eq!(&line[cell(line.as_bytes(), number)], expected);
    }
}
