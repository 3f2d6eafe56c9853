//! What stands around a place of a text, where the parser doesn't say it exactly.

use std::ops::Range;

/// The anchor, alias or tag of the value at `start`, by its sign: the word there or the nearest one before it.
pub(super) fn property(text: &str, sign: u8, start: usize) -> Option<Range<usize>> {
    let bytes = text.as_bytes();
    let before = || bytes[..start.min(bytes.len())].iter().rposition(|byte| *byte == sign);
    let own = if bytes.get(start) == Some(&sign) { Some(start) } else { in_properties(text, sign, start) };
    let at = own.or_else(before)?;
    let ends_word = |byte: &u8| byte.is_ascii_whitespace() || matches!(byte, b',' | b'[' | b']' | b'{' | b'}');
    let length = bytes[at..].iter().position(ends_word).unwrap_or(bytes.len() - at);
    Some(at..at + length.max(1))
}

/// Looks through the words that start with a sign at `start` (`!tag &anchor value`).
fn in_properties(text: &str, sign: u8, start: usize) -> Option<usize> {
    let mut at = start;
    for part in text[start..].split_inclusive(char::is_whitespace) {
        match part.as_bytes()[0] {
            first if first == sign => return Some(at),
            b'&' | b'!' | b' ' | b'\t' | b'\r' | b'\n' => at += part.len(),
            _ => return None,
        }
    }
    None
}

/// How much stands before a value: the words that start with a sign, and the room behind them.
pub(super) fn properties_length(text: &str) -> usize {
    let words = text.split_inclusive(char::is_whitespace);
    words.take_while(|part| part.starts_with(['&', '!']) || part.trim_end().is_empty()).map(str::len).sum()
}

/// The tab behind an error, which the parser notices only after it, or before the line that it is on.
pub(super) fn indenting_tab(text: &str, at: usize) -> Option<usize> {
    if text[..at].ends_with('\t') {
        return Some(at - 1);
    }
    let line_start = text[..at].rfind('\n').map_or(0, |end| end + 1);
    let tabs = text[at..].match_indices('\t').map(|(tab, _)| at + tab);
    tabs.take(100).find(|tab| {
        let before = &text[line_start..*tab];
        before.rsplit('\n').next().is_some_and(|indent| indent.trim().is_empty())
    })
}

/// How long the quoted text is with both its quotes. `escape` makes the character behind it ordinary, which a
/// single quote does only for another one.
pub(super) fn quoted_length(text: &str, quote: char, escape: char) -> Option<usize> {
    let mut rest = text.char_indices().skip(1).peekable();
    text.starts_with(quote).then_some(())?;
    while let Some((at, character)) = rest.next() {
        let escapes = character == escape && (quote != escape || rest.peek().is_some_and(|next| next.1 == quote));
        if escapes {
            rest.next();
        } else if character == quote {
            return Some(at + quote.len_utf8());
        }
    }
    None
}
