//! The zones in words and figures below the drawing.

use super::{LINE, WIDTH, beyond, foam, side};
use crate::fit::{CrossSection, Squeeze, ZoneCut};
use crate::render::fit_words;
use crate::render::markup::escaped;
use crate::render::svg::text::number;
use crate::render::text::mm;

/// Rows, px apart.
const ROW: f64 = 17.0;

/// Where columns begin, or end for figures.
const NAME: f64 = 34.0;
const PAD: f64 = 122.0;
const STRAIN: f64 = 172.0;
const FEELS: f64 = 186.0;
const BEYOND: f64 = 238.0;

/// What stands below, and how far down it goes.
pub(super) struct Rows {
    pub(super) drawn: String,
    pub(super) bottom: f64,
}

pub(super) fn rows(section: &CrossSection, key: &str, top: f64) -> Rows {
    let mut drawn = String::new();
    let mut y = top + ROW;
    for (class, x, words) in
        [("note", NAME, "zone"), ("note end", PAD, "pad"), ("note end", STRAIN, "strain"), ("note", FEELS, "feels")]
    {
        drawn.push_str(&text(class, [x, y], words));
    }
    drawn.push_str(&format!("<path class=\"rule\" d=\"M12 {}H{}\"/>\n", number(y + 5.0), number(WIDTH - 12.0)));
    for cut in &section.zones {
        y += ROW;
        drawn.push_str(&row(cut, key, y));
    }
    y += 4.0;
    for words in [
        "mm: brow and rear together, left and right together.",
        "Soft band: how far the head may be off (dark: 2 of 3).",
        "Dashed: the pads' inside with nobody in the helmet.",
    ] {
        y += LINE;
        drawn.push_str(&text("note small", [12.0, y], words));
    }
    Rows { drawn, bottom: y + 10.0 }
}

/// A strain in a word or two digits: below nothing there is a gap.
pub(super) fn strain(squeeze: Squeeze) -> String {
    if squeeze.strain < 0.0 { "gap".to_owned() } else { fit_words::strain(squeeze.strain) }
}

fn row(cut: &ZoneCut, key: &str, y: f64) -> String {
    let mut row = text("", [NAME, y], cut.zone.name());
    let pad = cut.pad.map_or_else(|| "-".to_owned(), |pad| format!("{} mm", mm(pad)));
    row.push_str(&text("end", [PAD, y], &pad));
    let Some(squeeze) = cut.squeeze else {
        let words = if cut.pad.is_some() { "shows only on the head" } else { "no pad" };
        return row + &text("", [FEELS, y], words);
    };
    let [x, top] = [12.0, y - 10.0].map(number);
    let swatch = foam::fill(squeeze.band, key);
    row.push_str(&format!("<rect class=\"foam\" {swatch} x=\"{x}\" y=\"{top}\" width=\"16\" height=\"12\"/>\n"));
    row.push_str(&text("end", [STRAIN, y], &strain(squeeze)));
    row.push_str(&text("", [FEELS, y], squeeze.band.name()));
    let words = side(squeeze).map(|side| format!("{} {side}", beyond(squeeze)));
    row + &words.map_or_else(String::new, |words| text("", [BEYOND, y], &words))
}

fn text(class: &str, at: [f64; 2], words: &str) -> String {
    let [x, y] = at.map(number);
    let class = if class.is_empty() { String::new() } else { format!(" class=\"{class}\"") };
    format!("<text{class} x=\"{x}\" y=\"{y}\">{}</text>\n", escaped(words))
}
