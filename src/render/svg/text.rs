//! Widths of texts, and numbers as SVG takes them.

use unicode_width::{UnicodeWidthChar, UnicodeWidthStr};

/// Widths as a share of the letters' size: the widest letters, capitals, the others, and two kinds of narrow ones. Nobody knows the reader's font.
/// Bold letters of a wide one, measured in a browser: up to 1.1, capitals 0.76 on average, words 0.61.
const WIDEST: f64 = 1.0;
const CAPITAL: f64 = 0.78;
const LETTER: f64 = 0.66;
const NARROW: f64 = 0.5;
const NARROWEST: f64 = 0.44;

/// What a text takes at most, in the unit of the letters' size.
pub(super) fn width(text: &str, size: f64) -> f64 {
    let letter = |character: char| match character {
        'W' | 'M' | 'w' | 'm' | '@' | '%' | '…' | '—' => WIDEST,
        'i' | 'j' | 'l' | ' ' | '.' | ',' | ':' | ';' | '\'' | '|' => NARROWEST,
        'f' | 'r' | 't' | '(' | ')' | '-' | '/' => NARROW,
        capital if capital.is_uppercase() => CAPITAL,
        other => LETTER * other.width().unwrap_or_default() as f64,
    };
    size * text.chars().map(letter).sum::<f64>()
}

/// A number with one decimal where it needs one.
pub(super) fn number(value: f64) -> String {
    // A sum of nothing may be -0.
    let text = format!("{:.1}", (value * 10.0).round() / 10.0 + 0.0);
    text.strip_suffix(".0").map_or(text.clone(), str::to_owned)
}

/// The start of a text that is wider than its room, with a sign that it goes on.
pub(super) fn fitted(text: &str, size: f64, room: f64) -> String {
    if width(text, size) <= room {
        return text.to_owned();
    }
    let mut taken = width("…", size);
    let fits = |character: &char| {
        taken += width(character.encode_utf8(&mut [0; 4]), size);
        taken <= room
    };
    text.chars().take_while(fits).chain(['…']).collect()
}

/// The start of a text that is too long, with a sign that it goes on.
pub(super) fn cut(text: &str, columns: usize) -> String {
    if text.width() <= columns {
        return text.to_owned();
    }
    let mut taken = 1;
    let fits = |character: &char| {
        taken += character.width().unwrap_or_default();
        taken <= columns
    };
    text.chars().take_while(fits).chain(['…']).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short_and_plain() {
        assert_eq!([-0.04, 12.0, 12.34, -7.05].map(number), ["0", "12", "12.3", "-7.1"]);
    }

    #[test]
    fn wide_letters_have_their_room() {
        let widths = ["ll", "tt", "oo", "头", "AB", "WM", ""].map(|text| number(width(text, 10.0)));
        assert_eq!(widths, ["8.8", "10", "13.2", "13.2", "15.6", "20", "0"]);
    }

    #[test]
    fn what_is_wide_is_cut_to_its_room() {
        let cut = |text: &str, room: f64| fitted(text, 10.0, room);
        assert_eq!([cut("Harbour", 60.0), cut("Harbour", 30.0), cut("WWWW", 30.0)], ["Harbour", "Har…", "WW…"]);
        assert!(width(&cut("What is it", 40.0), 10.0) <= 40.0);
    }

    #[test]
    fn long_names_are_cut_to_columns() {
        assert_eq!(
            [cut("Harbour Two", 11), cut("Harbour Two", 8), cut("頭頭頭頭", 6)],
            ["Harbour Two", "Harbour…", "頭頭…"]
        );
    }
}
