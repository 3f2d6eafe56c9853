//! Characters that do something to a text other than stand in it.

/// Whether a terminal would obey a character, or the character hides, or turns the direction of reading around it.
///
/// Control characters (line breaks and tabs are some), and of the format characters of Unicode those that no name
/// and no note needs: soft hyphen, marks of direction, zero-width spaces and joiners, other line breaks, invisible
/// operators, the byte order mark, annotations and tags.
#[must_use]
pub fn is_invisible(character: char) -> bool {
    character.is_control()
        || matches!(character, '\u{ad}' | '\u{61c}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}'
            | '\u{2060}'..='\u{206f}' | '\u{feff}' | '\u{fff9}'..='\u{fffb}' | '\u{e0000}'..='\u{e007f}')
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case("a Ü ß é 名 😀 ± … 12", false)]
    #[case("\u{1b}", true)]
    #[case("\n\t\r\u{7f}\u{80}\u{9b}\u{9f}", true)]
    #[case("\u{ad}\u{200b}\u{200e}\u{2028}\u{202a}\u{202e}\u{2066}\u{feff}\u{fffb}\u{e0041}", true)]
    fn only_what_does_something_is_invisible(#[case] text: &str, #[case] expected: bool) {
        assert!(text.chars().all(|character| is_invisible(character) == expected), "{text:?}");
    }
}
