//! Words for what the first pass refuses.

use super::MOST_BYTES;
use super::wording::visible;
use crate::diag::{Code, Diagnostic, Span};

pub(super) fn too_large(at: Span) -> Diagnostic {
    Diagnostic::error(Code("yaml-too-large"), format!("the text is longer than the {MOST_BYTES} bytes that are read"))
        .at(at, "")
        .help("split it into several files")
}

pub(super) fn too_many_words(most: usize, at: Span) -> Diagnostic {
    let message = format!("the file holds more than the {most} keys and values that are read");
    Diagnostic::error(Code("yaml-too-large"), message)
        .at(at, "too many from here on")
        .help("split it into several files")
}

/// A list, a group, a text or a comment that is as long as many files.
pub(super) fn too_long(at: Span) -> Diagnostic {
    let message = "what begins behind this place is longer than anything that is read in one go";
    Diagnostic::error(Code("yaml-too-large"), message)
        .at(at, "it doesn't end within 500 KB")
        .help("look for a bracket or a quote that is never closed; write long lists on lines that start with `- `")
}

pub(super) fn empty(at: Span) -> Diagnostic {
    Diagnostic::error(Code("yaml-empty"), "there is nothing to read in the file")
        .at(at, "")
        .help("write its keys, or remove the file")
}

pub(super) fn documents(at: Span) -> Diagnostic {
    Diagnostic::error(Code("yaml-documents"), "the file holds more than one document")
        .at(at, "the second one starts here")
        .help("remove the line `---`, or put what follows it in a file of its own")
}

pub(super) fn depth(most: usize, at: Span) -> Diagnostic {
    let message = format!("groups and lists lie in each other more than {most} deep");
    Diagnostic::error(Code("yaml-depth"), message)
        .at(at, "this one is too deep")
        .help("look for a bracket that is never closed")
}

pub(super) fn anchor(at: Span) -> Diagnostic {
    Diagnostic::error(Code("yaml-anchor"), "names for values (`&name`) can't be used here")
        .at(at, "gives the value a name")
        .help("remove it, and write the value out in every place; put a text that starts with & in quotes")
}

pub(super) fn alias(at: Span) -> Diagnostic {
    Diagnostic::error(Code("yaml-alias"), "references to values (`*name`) can't be used here")
        .at(at, "refers to a value elsewhere")
        .help("write the value itself; put a text that starts with * in quotes")
}

pub(super) fn tag(at: Span) -> Diagnostic {
    Diagnostic::error(Code("yaml-tag"), "type names (`!name`) can't be used here")
        .at(at, "names a type")
        .help("remove it; put a text that starts with ! in quotes")
}

pub(super) fn key_is_no_text(word: &str, at: Span) -> Diagnostic {
    let problem = Diagnostic::error(Code("yaml-key"), "a key has to be a word").at(at, "not a word");
    if word.is_empty() {
        problem.help("write the key before the colon")
    } else {
        problem.help(format!("if this is meant as a key, put it in quotes: \"{}\"", visible(word)))
    }
}

pub(super) fn key_is_no_word(at: Span) -> Diagnostic {
    Diagnostic::error(Code("yaml-key"), "a key has to be a word, not a list or a group of keys")
        .at(at, "used as a key")
        .help("put a text that starts with a bracket in quotes")
}

pub(super) fn duplicate_key(word: &str, second: Span, first: Span) -> Diagnostic {
    Diagnostic::error(Code("yaml-duplicate-key"), format!("the key `{}` is given twice", visible(word)))
        .at(second, "given again")
        .see(first, "given first")
        .help("remove one of them")
}

/// A character that can't stand in a text as it is.
pub(super) fn unprintable(character: char, at: Span) -> Diagnostic {
    let message = format!("the invisible character U+{:04X} can't stand in the file", u32::from(character));
    Diagnostic::error(Code("yaml-syntax"), message).at(at, "it stands here").help("remove it, or type the line again")
}

/// Where the parser can't go on; `why` is what it says itself.
pub(super) fn error(why: &str, at: Span) -> Diagnostic {
    let known = KNOWN.iter().find(|(part, ..)| why.contains(part));
    let (message, help) = match known {
        Some((_, message, help)) => ((*message).to_owned(), *help),
        None => {
            // The parser repeats the place.
            let why = why.split(" at line ").next().unwrap_or_default();
            (format!("this can't be read: {}", visible(why)), "look at this line and the one before it")
        }
    };
    Diagnostic::error(Code("yaml-syntax"), message).at(at, "can't be read from here on").help(help)
}

/// The first character of a text that can't stand in it as it is.
pub(super) fn first_unprintable(text: &str) -> Option<(usize, char)> {
    text.char_indices().find(|(_, character)| !is_printable(*character))
}

/// YAML 1.2.2, production 1 (`c-printable`), without the byte order mark, which has no place inside a text, and
/// without the three line breaks that YAML 1.1 has and YAML 1.2 hasn't: parsers disagree on them.
fn is_printable(character: char) -> bool {
    match character {
        ' '..='~' | '\n' | '\r' | '\t' => true,
        '\u{2028}' | '\u{2029}' | '\u{feff}' => false,
        _ => matches!(character, '\u{a0}'..='\u{fffd}' | '\u{10000}'..),
    }
}

/// What the parser says (a part of it), what it means, and what to do.
const KNOWN: &[(&str, &str, &str)] = &[
    ("tab", "a tab can't be used to indent", "use spaces instead of the tab"),
    (
        "mapping values are not allowed",
        "a colon stands where no key can stand",
        "keys of one group start in the same column; put a text that holds `: ` in quotes",
    ),
    (
        "block mapping, did not find expected key",
        "a key is expected here",
        "keys of one group start in the same column: compare the spaces before this line and before its neighbours",
    ),
    (
        "expected '-' indicator",
        "a list entry is expected here",
        "entries of one list start with `- ` in the same column: compare the spaces before this line and before its neighbours",
    ),
    ("indentation in quoted scalar", "the quote that starts here is not closed on its line", "add the closing quote"),
    ("quoted scalar, found unexpected end", "the quote that starts here is never closed", "add the closing quote"),
    ("quoted scalar, found unexpected document", "a quote is not closed before this line", "add the closing quote"),
    ("flow mapping", "a comma or the closing `}` is missing", "look at the brackets and commas before this place"),
    ("flow sequence", "a comma or the closing `]` is missing", "look at the brackets and commas before this place"),
    ("flow construct", "a bracket is not closed before this line", "add the closing bracket, or indent the line"),
    ("misplaced bracket", "this bracket closes nothing", "remove it, or add the bracket that opens it"),
    (
        "unknown escape",
        "this backslash starts no known sign",
        "write two backslashes for one, or put the text in single quotes",
    ),
    ("after double-quoted", "something stands behind the closing quote", "put the whole text inside the quotes"),
    ("simple key expect", "a colon is missing behind this key", "write `key: value`"),
    (
        "found unexpected ':'",
        "a colon stands inside a text",
        "put the text in quotes; in `key: value` a space follows the colon",
    ),
    ("cannot start any token", "a text can't start with this character", "put the text in quotes"),
    ("unexpected character", "a text can't start with this character", "put the text in quotes"),
    ("expected node content", "a value is expected here", "put a text that starts with a comma or a bracket in quotes"),
    (
        "indentation",
        "this line starts in the wrong column",
        "compare the spaces before this line and before its neighbours",
    ),
];

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case("plain ü\t\r\n😀", None)]
    #[case("ü\u{1b}[31m", Some((2, '\u{1b}')))]
    #[case("a\u{feff}b", Some((1, '\u{feff}')))]
    #[case("\0", Some((0, '\0')))]
    #[case("# a comment\u{2028}key: 1", Some((11, '\u{2028}')))]
    #[case("a\u{85}", Some((1, '\u{85}')))]
    #[case("\u{ffff}", Some((0, '\u{ffff}')))]
    fn control_characters_are_found(#[case] text: &str, #[case] found: Option<(usize, char)>) {
        assert_eq!(first_unprintable(text), found);
    }
}
