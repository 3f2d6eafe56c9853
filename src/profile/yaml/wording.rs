//! Words for values that don't fit, in the language of a person at a counter.

use super::places::{Kind, NodeId, Places, ROOT};
use super::scalars;
use crate::diag::{Code, Diagnostic, Span, is_invisible, nearest};
use std::fmt::Write as _;

/// How many characters of a file's text a message repeats.
const MOST_QUOTED: usize = 40;

/// What a place needs.
#[derive(Debug, Clone, Copy)]
pub(super) enum Needs {
    Text,
    Number,
    /// A number other than `.nan` and `.inf`.
    Finite,
    Whole {
        least: i128,
        most: i128,
    },
    Truth,
    List,
    Entries(usize),
    /// A group with any keys.
    Group,
    Keys(&'static [&'static str]),
    Word(&'static [&'static str]),
}

/// A value that is of another kind than its place needs, or an unknown word where one of a few is needed.
pub(super) fn misfit(places: &Places<'_>, id: NodeId, needs: Needs) -> Diagnostic {
    if let (Needs::Word(known), Kind::Plain | Kind::Quoted, false) =
        (needs, places.node(id).kind, is_nothing(places, id))
    {
        return unknown_word(places, id, known);
    }
    let what = needs.in_words();
    let message = format!("{} needs {what}, but has {}", subject(places, id), found(places, id, needs));
    let problem = Diagnostic::error(Code("profile-type"), message).at(places.value_of(id), format!("{what} goes here"));
    match advice(places, id, needs) {
        Some(text) => problem.help(text),
        None => problem,
    }
}

/// The same in the words of the type that the value is read into.
pub(super) fn misfit_of_type(places: &Places<'_>, id: NodeId, what: &str) -> Diagnostic {
    let what = visible(what);
    let message = format!("{} needs {what}, but has {}", subject(places, id), found(places, id, Needs::Text));
    Diagnostic::error(Code("profile-type"), message).at(places.value_of(id), format!("{what} goes here"))
}

/// A value that is refused by the type that it is read into, which says why.
pub(super) fn refused(places: &Places<'_>, id: NodeId, why: &str) -> Diagnostic {
    let message = format!("{} can't be {}: {}", subject(places, id), found(places, id, Needs::Text), visible(why));
    Diagnostic::error(Code("profile-type"), message).at(places.value_of(id), "this value doesn't fit here")
}

/// Keys that are left out of the group at `id`.
pub(super) fn missing_keys(places: &Places<'_>, id: NodeId, keys: &[&str]) -> Diagnostic {
    let (noun, verb) = if keys.len() == 1 { ("key", "is") } else { ("keys", "are") };
    let list = listed(keys);
    let message = format!("the {noun} {list} {verb} missing from {}", subject(places, id));
    let problem = Diagnostic::error(Code("profile-missing-key"), message);
    match first_key(places, id) {
        Some(first) => problem.at(first, "missing beside this key"),
        None => problem.at(places.value_of(id), "nothing is given here"),
    }
    .help(if keys.len() == 1 {
        format!("add {list} with its value")
    } else {
        format!("add {list} with their values")
    })
}

/// A key that its group doesn't have; `meant` is the one that was probably meant.
pub(super) fn unknown_key(places: &Places<'_>, id: NodeId, known: &[&'static str], meant: Option<&str>) -> Diagnostic {
    let key = visible(places.key_word(id).unwrap_or_default());
    let message = format!("unknown key `{key}` in {}", subject(places, places.node(id).parent));
    let help = match meant {
        Some(meant) => format!("did you mean `{meant}`?"),
        None => format!("the keys known here are {}", listed(known)),
    };
    Diagnostic::error(Code("profile-unknown-key"), message).at(places.key_of(id), "not known here").help(help)
}

/// A text that may stand in a message: nothing in it moves the cursor or turns the direction of reading,
/// and it is short.
pub(crate) fn visible(text: &str) -> String {
    let mut shown = String::new();
    for (count, character) in text.chars().enumerate() {
        if count == MOST_QUOTED * 4 {
            shown.push('…');
            break;
        }
        if is_invisible(character) {
            shown.extend(character.escape_default());
        } else {
            shown.push(character);
        }
    }
    shown
}

/// Names in backticks, with commas between them.
pub(super) fn listed(names: &[&str]) -> String {
    let mut list = String::new();
    for (index, name) in names.iter().enumerate() {
        let comma = if index == 0 { "" } else { ", " };
        // Writing to a string can't fail.
        let _ = write!(list, "{comma}`{name}`");
    }
    list
}

impl Needs {
    fn in_words(self) -> String {
        match self {
            Self::Text => "a text".to_owned(),
            Self::Number => "a number".to_owned(),
            Self::Finite => "a finite number".to_owned(),
            Self::Whole { least, most } => format!("a whole number from {least} to {most}"),
            Self::Truth => "`true` or `false`".to_owned(),
            Self::List => "a list".to_owned(),
            Self::Entries(count) => format!("a list of {}", entries(count)),
            Self::Group | Self::Keys(_) => "a group of keys".to_owned(),
            Self::Word(known) => format!("one of the words {}", listed(known)),
        }
    }
}

fn unknown_word(places: &Places<'_>, id: NodeId, known: &'static [&'static str]) -> Diagnostic {
    let word = places.word(id);
    let message = format!("{} can't be `{}`", subject(places, id), short(word));
    let help = match nearest(word, known.iter().copied()) {
        Some(meant) => format!("did you mean `{meant}`?"),
        None => format!("the words known here are {}", listed(known)),
    };
    Diagnostic::error(Code("profile-unknown-word"), message).at(places.value_of(id), "not known here").help(help)
}

/// What a value is called by its place: its key, or its number in a list.
fn subject(places: &Places<'_>, id: NodeId) -> String {
    if id == ROOT {
        return "the file".to_owned();
    }
    if let Some(key) = places.key_word(id) {
        return format!("`{}`", short(key));
    }
    let parent = places.node(id).parent;
    // Children stand in the order of their numbers.
    let number = places.children(parent).binary_search(&id).map_or(0, |index| index + 1);
    let list = if parent == ROOT { "the list".to_owned() } else { subject(places, parent) };
    format!("entry {number} of {list}")
}

/// What stands at a place, as far as it matters to what is needed there.
fn found(places: &Places<'_>, id: NodeId, needs: Needs) -> String {
    let word = places.word(id);
    match places.node(id).kind {
        Kind::Group => "a group of keys".to_owned(),
        Kind::List if matches!(needs, Needs::Entries(_)) => entries(places.children(id).len()),
        Kind::List => "a list".to_owned(),
        Kind::Plain if scalars::is_null(word) => "nothing".to_owned(),
        Kind::Plain if scalars::truth(word).is_some() || scalars::number(word).is_some() => {
            format!("`{}`", short(word))
        }
        Kind::Quoted if scalars::number(word).is_some() => format!("the text `\"{}\"` in quotes", short(word)),
        Kind::Plain | Kind::Quoted => format!("the text `{}`", short(word)),
        Kind::Refused => "something that can't be used".to_owned(),
    }
}

/// What to do about the slips that happen most.
fn advice(places: &Places<'_>, id: NodeId, needs: Needs) -> Option<String> {
    let node = places.node(id);
    let word = places.word(id);
    let is_scalar = matches!(node.kind, Kind::Plain | Kind::Quoted);
    let starts_with_number = word.starts_with(|c: char| c.is_ascii_digit()) && scalars::number(word).is_none();
    match needs {
        Needs::Number | Needs::Whole { .. } if node.kind == Kind::Quoted && scalars::number(word).is_some() => {
            Some("leave the quotes out".to_owned())
        }
        Needs::Number if is_scalar && scalars::number(&word.replace(',', ".")).is_some() => {
            Some(format!("decimals stand behind a point: {}", word.replace(',', ".")))
        }
        Needs::Number | Needs::Whole { .. } if starts_with_number => {
            Some("write the number alone, without a unit".to_owned())
        }
        Needs::Number | Needs::Finite => Some("write a number such as 12 or 12.5".to_owned()),
        Needs::Truth if word.eq_ignore_ascii_case("yes") => Some("write true".to_owned()),
        Needs::Truth if word.eq_ignore_ascii_case("no") => Some("write false".to_owned()),
        Needs::List | Needs::Entries(_) if node.kind != Kind::List => {
            Some("write the entries in brackets, [like, this], or each on a line that starts with `- `".to_owned())
        }
        Needs::Keys(known) => Some(format!("the keys known here are {}", listed(known))),
        Needs::Text => Some("write a text; in quotes where it holds brackets or colons".to_owned()),
        _ => None,
    }
}

fn first_key(places: &Places<'_>, id: NodeId) -> Option<Span> {
    let first = places.children(id).first()?;
    places.node(*first).key.map(|key| places.span(key.place))
}

fn is_nothing(places: &Places<'_>, id: NodeId) -> bool {
    places.node(id).kind == Kind::Plain && scalars::is_null(places.word(id))
}

fn entries(count: usize) -> String {
    if count == 1 { "1 entry".to_owned() } else { format!("{count} entries") }
}

fn short(text: &str) -> String {
    match text.char_indices().nth(MOST_QUOTED) {
        Some((end, _)) => visible(&text[..end]) + "…",
        None => visible(text),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_in_a_message_moves_the_cursor() {
        assert_eq!(visible("a\u{1b}[31m\u{202e}b\nü\u{85}"), "a\\u{1b}[31m\\u{202e}b\\nü\\u{85}");
    }

    #[test]
    fn a_message_repeats_only_the_start_of_a_long_text() {
        assert_eq!(short(&"ü".repeat(1000)), "ü".repeat(MOST_QUOTED) + "…");
        assert_eq!(short(&"ü".repeat(MOST_QUOTED)), "ü".repeat(MOST_QUOTED));
        assert_eq!(visible(&"x".repeat(1000)).chars().count(), MOST_QUOTED * 4 + 1);
    }
}
