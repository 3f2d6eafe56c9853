//! From the parser's positions, which count characters, to bytes.

/// How many characters lie between two noted offsets.
const STRIDE: usize = 64;

/// Byte offsets of the characters of one text.
pub(super) struct Offsets<'t> {
    text: &'t str,
    /// The byte offset of every 64th character; none are needed where each character is one byte.
    noted: Option<Vec<usize>>,
}

impl<'t> Offsets<'t> {
    /// Looks through the text once.
    pub(super) fn new(text: &'t str) -> Self {
        let noted = || text.char_indices().step_by(STRIDE).map(|(at, _)| at).collect();
        Self { text, noted: if text.is_ascii() { None } else { Some(noted()) } }
    }

    /// The byte at which a character starts; the end of the text for every later one.
    pub(super) fn byte(&self, character: usize) -> usize {
        let Some(noted) = &self.noted else { return character.min(self.text.len()) };
        let Some(near) = noted.get(character / STRIDE) else { return self.text.len() };
        let rest = &self.text[*near..];
        rest.char_indices().nth(character % STRIDE).map_or(self.text.len(), |(at, _)| near + at)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case::empty("".to_owned())]
    #[case::ascii("abc\n".repeat(50))]
    #[case::mixed("aé€😀\r\n".repeat(50))]
    #[case::exactly_one_stride("é".repeat(STRIDE))]
    fn every_character_starts_where_the_text_says(#[case] text: String) {
        let offsets = Offsets::new(&text);
        for (character, (byte, _)) in text.char_indices().enumerate() {
            assert_eq!(offsets.byte(character), byte);
        }
        let characters = text.chars().count();
        assert_eq!(offsets.byte(characters), text.len());
        assert_eq!(offsets.byte(characters + 1000), text.len());
    }
}
