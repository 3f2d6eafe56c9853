//! Names of models, shells, sizes, packs and populations.

use std::fmt;

/// A name that profiles refer to each other by: letters, digits and single hyphens, at most 48 characters
/// (`harbour-two`, `XXL`). It can't hold anything that a terminal or a path would take for a command.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Id(String);

/// Why a text is no [`Id`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("a name is 1 to 48 letters, digits and single hyphens, such as \"harbour-two\" or \"XL\"")]
pub struct BadId;

impl Id {
    /// The most characters that a name may have.
    pub const LONGEST: usize = 48;

    /// The name as it was written.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl Id {
    /// The name that a text was most likely meant to be: its letters and digits in lower case, with hyphens between the
    /// words; `unnamed` where it has none.
    #[must_use]
    pub fn nearest_to(text: &str) -> Self {
        let words = text.split(|c: char| !c.is_ascii_alphanumeric()).filter(|word| !word.is_empty());
        let name = words.collect::<Vec<_>>().join("-").to_ascii_lowercase();
        let short = name.get(..48).unwrap_or(&name).trim_end_matches('-');
        Self(if short.is_empty() { "unnamed".to_owned() } else { short.to_owned() })
    }
}

impl TryFrom<String> for Id {
    type Error = BadId;

    fn try_from(text: String) -> Result<Self, BadId> {
        let words_are_plain =
            text.split('-').all(|word| !word.is_empty() && word.bytes().all(|b| b.is_ascii_alphanumeric()));
        if text.len() <= Self::LONGEST && words_are_plain { Ok(Self(text)) } else { Err(BadId) }
    }
}

impl TryFrom<&str> for Id {
    type Error = BadId;

    fn try_from(text: &str) -> Result<Self, BadId> {
        Self::try_from(text.to_owned())
    }
}

impl fmt::Display for Id {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case("harbour-two", true)]
    #[case("XXL", true)]
    #[case("", false)]
    #[case("-a", false)]
    #[case("a--b", false)]
    #[case("../etc", false)]
    #[case("a\u{1b}[31m", false)]
    fn names_are_plain_words(#[case] text: &str, #[case] good: bool) {
        assert_eq!(Id::try_from(text).is_ok(), good);
    }

    #[rstest]
    #[case("Quorrie Peak", "quorrie-peak")]
    #[case("-a--b-", "a-b")]
    #[case("\u{1b}[2J", "2j")]
    #[case("äö", "unnamed")]
    fn a_bad_name_has_a_good_one_near_it(#[case] text: &str, #[case] near: &str) {
        assert_eq!(Id::nearest_to(text).as_str(), near);
        assert!(Id::try_from(Id::nearest_to(&text.repeat(40)).as_str()).is_ok());
    }
}
