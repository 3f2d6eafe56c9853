//! Texts that need no first pass, because there is nothing in them that it looks for or that two parsers may read
//! differently. When in doubt, a text isn't one of them.

/// The longest of them: the first pass bounds what the typed parser makes of a text.
const MOST_BYTES: usize = 256 * 1024;

/// The longest line.
const LONGEST_LINE: usize = 1000;

/// Brackets in brackets beyond these are counted properly.
const MOST_DEPTH: usize = 16;

/// Whether a text is written in the way that nearly all profiles are: lines `key: value` and `- value`; lists and
/// groups in brackets, further right than what they belong to; texts on one line, in quotes or not; comments.
///
/// Anchors, aliases, tags, directives, documents, texts over several lines, escapes and odd line breaks aren't that. A
/// repeated key needs no look, because every group of a profile is a struct, whose repeated field the typed parser
/// refuses.
pub(super) fn is_plain(text: &str) -> bool {
    if text.len() > MOST_BYTES || (!text.is_ascii() && text.contains(['\u{85}', '\u{2028}', '\u{2029}', '\u{feff}'])) {
        return false;
    }
    let mut scan = Scan::default();
    text.split('\n').all(|line| scan.take(line.strip_suffix('\r').unwrap_or(line).as_bytes())) && scan.depth == 0
}

/// What is open at a place of a text.
#[derive(Default)]
struct Scan {
    /// How many brackets are open.
    depth: usize,
    /// The column of the first word of the line on which the outermost was opened.
    column: usize,
}

impl Scan {
    /// Goes on over a line; false where it isn't plain.
    fn take(&mut self, line: &[u8]) -> bool {
        let indent = line.iter().take_while(|byte| **byte == b' ').count();
        let Some(first) = line.get(indent).copied() else { return true };
        if first == b'#' {
            return is_printed(line);
        }
        if self.depth > 0 {
            let is_right = indent > self.column || matches!(first, b']' | b'}');
            return is_right && line.len() <= LONGEST_LINE && self.words(&line[indent..]);
        }
        let mut start = indent;
        while line[start..].starts_with(b"- ") {
            start += 2;
        }
        self.column = start;
        line.len() <= LONGEST_LINE && is_entry_or_member(&line[start..], start > indent) && self.words(&line[start..])
    }

    /// Goes on over the words of a line, each of which may be in quotes.
    fn words(&mut self, line: &[u8]) -> bool {
        let mut rest = line;
        // Whether a word may begin here.
        let mut is_start = true;
        while let Some((byte, behind)) = rest.split_first() {
            rest = behind;
            match byte {
                b' ' if behind.starts_with(b"#") => return is_printed(behind),
                b' ' => continue,
                b'"' | b'\'' if is_start => match behind_quote(behind, *byte) {
                    Some(behind) => rest = behind,
                    None => return false,
                },
                b'[' | b'{' if is_start && self.depth < MOST_DEPTH => {
                    self.depth += 1;
                    continue;
                }
                b']' | b'}' if self.depth > 0 && ends_word(behind) => self.depth -= 1,
                b',' if self.depth > 0 && (behind.is_empty() || behind.starts_with(b" ")) => {
                    is_start = true;
                    continue;
                }
                b':' if behind.is_empty() || behind.starts_with(b" ") => {
                    is_start = true;
                    continue;
                }
                // Outside of brackets a word may hold one.
                b',' if self.depth == 0 && !is_start => {}
                // No word of a profile holds these, but for texts, which stand in quotes then.
                b':' | b'[' | b'{' | b']' | b'}' => return false,
                byte if is_start && !is_first_of_word(*byte) => return false,
                byte if !is_of_word(*byte) => return false,
                _ => {}
            }
            is_start = false;
        }
        true
    }
}

/// Whether a line outside of brackets is a key with or without a value, or an entry of a list.
fn is_entry_or_member(line: &[u8], is_entry: bool) -> bool {
    let is_of_key = |byte: &&u8| byte.is_ascii_lowercase() || byte.is_ascii_digit() || **byte == b'_';
    let key = line.iter().take_while(is_of_key).count();
    let is_member = line.first().is_some_and(u8::is_ascii_lowercase)
        && line[key..].starts_with(b":")
        && (line.len() == key + 1 || line[key + 1] == b' ');
    // Behind a dash may stand anything that begins like a word or with a bracket.
    is_member || (is_entry && line.first().is_some_and(|byte| is_first_of_word(*byte) || b"[{\"'".contains(byte)))
}

/// What stands behind the quote that closes a text on the same line; none where it is anything but a plain text.
fn behind_quote(text: &[u8], quote: u8) -> Option<&[u8]> {
    let end = text.iter().position(|byte| *byte == quote)?;
    let is_plain = is_printed(&text[..end]) && !text[..end].contains(&b'\\');
    (is_plain && ends_word(&text[end + 1..])).then_some(&text[end + 1..])
}

/// Whether a word may end before this.
fn ends_word(behind: &[u8]) -> bool {
    behind.first().is_none_or(|byte| b" ,:]}".contains(byte))
}

fn is_first_of_word(byte: u8) -> bool {
    byte.is_ascii_alphanumeric() || byte >= 0x80 || matches!(byte, b'.' | b'+' | b'(')
        // A number below nothing, or a word.
        || byte == b'-'
}

fn is_of_word(byte: u8) -> bool {
    matches!(byte, b' '..=b'~' | 0x80..) && !b"&*!%@`|>?,\"#\\".contains(&byte)
}

fn is_printed(line: &[u8]) -> bool {
    line.iter().all(|byte| matches!(byte, b' '..=b'~' | 0x80..))
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case::anchor("a: &b 1")]
    #[case::alias("a: *b")]
    #[case::tag("a: !b 1")]
    #[case::directive("%YAML 1.2\n---\na: 1")]
    #[case::documents("a: 1\n---\nb: 1")]
    #[case::depth("a: [[[[[[[[[[[[[[[[[1]]]]]]]]]]]]]]]]]")]
    #[case::tab("a:\t1")]
    #[case::escape("a: \u{1b}")]
    #[case::line_separator("a: b # \u{2028}c: d")]
    #[case::lone_return("a: b\rc: d")]
    #[case::too_long(&"# a\n".repeat(70_000))]
    #[case::long_line(&format!("a: {}", "x".repeat(1000)))]
    #[case::against_the_margin("a: [b,\nc]")]
    #[case::against_the_margin_of_its_group("- a: [b,\n  c]")]
    #[case::bracket_in_a_quote("a: [\"]\",\nb]")]
    #[case::quote_over_lines("a: \"b\n  c\"")]
    #[case::words_over_lines("a: b\n  c")]
    #[case::escaped("a: \"\\L\"")]
    #[case::doubled_quote("a: 'b''c'")]
    #[case::bracket_never_closed("a: [b")]
    #[case::bracket_never_opened("a: b]")]
    #[case::question("{a: b, ?c: d}")]
    #[case::colon_in_a_word("a: {b: c:d}")]
    #[case::colon_behind_a_quote("a: {\"b\":c}")]
    #[case::literal("a: |\n  b")]
    #[case::deep_behind_a_quote(&format!("- \"\n- {}", "[".repeat(20)))]
    fn what_the_first_pass_looks_for_is_not_plain(#[case] text: &str) {
        assert!(!is_plain(text));
    }

    #[rstest]
    #[case("name: [a,\n  b,\n]\n")]
    #[case("- {from: a,\n   to: \"b [c\"}\r\n- c: [\n    d\n  ]\n# don't\n")]
    #[case("a:\n  - b\n  - -1.5 # \"c\n  - 'it is [so]'\nshop: Größe (und mehr), don't\n")]
    #[case(include_str!("../../../profiles/shop.yaml"))]
    #[case(include_str!("../../../profiles/fallbacks.yaml"))]
    #[case(include_str!("../../../profiles/helmets/dunvarrick.yaml"))]
    #[case(include_str!("../../../profiles/helmets/wexmarsh.yaml"))]
    #[case(include_str!("../../../profiles/populations/adults.yaml"))]
    fn what_profiles_are_like_is_plain(#[case] text: &str) {
        let mut scan = Scan::default();
        let line = text.split('\n').find(|line| !scan.take(line.strip_suffix('\r').unwrap_or(line).as_bytes()));
        assert_eq!(line, None);
        assert!(is_plain(text));
    }
}
