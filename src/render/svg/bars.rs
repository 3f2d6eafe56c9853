//! Bars side by side, each with its name and its figure.

use super::picture::{Kind, Picture};
use super::text::{cut, number};
use crate::layered::Extent;
use crate::render::colour::Scheme;
use crate::render::markup::escaped;

/// What bars tell, and what they are compared by.
pub(in crate::render) struct Bars {
    pub(in crate::render) title: &'static str,
    /// The same as the bars say, for those who don't see them.
    pub(in crate::render) description: String,
    /// What the two parts of a bar are; a picture whose bars have one part has no need of it.
    pub(in crate::render) key: Option<[&'static str; 2]>,
    /// How the two parts look.
    pub(in crate::render) shades: [Shade; 2],
    /// What the full length means; more than 0.
    pub(in crate::render) full: f64,
    pub(in crate::render) bars: Vec<Bar>,
}

/// One bar.
pub(in crate::render) struct Bar {
    /// Its place, or where it stands on a scale.
    pub(in crate::render) number: String,
    pub(in crate::render) name: String,
    /// Its parts, the one behind the other.
    pub(in crate::render) parts: [f64; 2],
    /// What it says in figures.
    pub(in crate::render) figure: String,
    /// Whether it is the one that is told of first.
    pub(in crate::render) rank: Rank,
}

/// How a part of a bar looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::render) enum Shade {
    Strong,
    Light,
}

/// Whether a bar is the one that is told of first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::render) enum Rank {
    Answer,
    Other,
}

/// Numbers, names, bars and figures, from left to right.
const NUMBERS: f64 = 22.0;
const NAMES: f64 = 196.0;
const LENGTH: f64 = 260.0;
const FIGURES: f64 = 92.0;
const MARGIN: f64 = 16.0;

/// From one bar to the next, and their height.
const STEP: f64 = 24.0;
const HEIGHT: f64 = 16.0;

/// Above the first bar, without and with a key.
const TOP: f64 = 46.0;
const BELOW_KEY: f64 = 72.0;

/// The longest name that is written out; the whole of it stands in the title.
const LONGEST: usize = 28;

/// The bars as a drawing.
pub(in crate::render) fn bars(bars: &Bars) -> Picture {
    let top = if bars.key.is_some() { BELOW_KEY } else { TOP };
    let heading = format!("<text class=\"heading\" x=\"{MARGIN}\" y=\"30\">{}</text>\n", bars.title);
    let key = bars.key.map_or_else(String::new, |words| key(words, bars.shades));
    let lines = bars.bars.iter().enumerate().map(|(at, bar)| drawn(bar, bars, top + STEP * at as f64));
    Picture {
        kind: Kind::Bars,
        title: bars.title.to_owned(),
        description: bars.description.clone(),
        size: Extent {
            width: MARGIN + NUMBERS + NAMES + LENGTH + FIGURES + MARGIN,
            height: top + STEP * bars.bars.len() as f64 + MARGIN,
        },
        body: heading + &key + &lines.collect::<String>(),
        is_followed: false,
    }
}

impl Shade {
    fn class(self) -> &'static str {
        match self {
            Self::Strong => "strong",
            Self::Light => "light",
        }
    }
}

fn key([first, second]: [&str; 2], shades: [Shade; 2]) -> String {
    let [one, two] = shades.map(Shade::class);
    let mut svg = String::new();
    for (class, words, x) in [(one, first, MARGIN), (two, second, MARGIN + NUMBERS + NAMES)] {
        let [left, next] = [x, x + 28.0].map(number);
        svg.push_str(&format!(
            "<rect class=\"{class}\" x=\"{left}\" y=\"42\" width=\"22\" height=\"14\"/><text class=\"note\" x=\"{next}\" y=\"53\">{words}</text>\n"
        ));
    }
    svg
}

fn drawn(bar: &Bar, bars: &Bars, y: f64) -> String {
    let class = if bar.rank == Rank::Answer { "bar answer" } else { "bar" };
    let left = MARGIN + NUMBERS + NAMES;
    let lengths = bar.parts.map(|part| LENGTH * (part / bars.full).clamp(0.0, 1.0));
    let rect = |class: &str, from: f64, length: f64| {
        let [x, y, w] = [from, y, length].map(number);
        if length < 0.05 {
            return String::new();
        }
        format!("<rect class=\"{class}\" x=\"{x}\" y=\"{y}\" width=\"{w}\" height=\"{HEIGHT}\"/>")
    };
    let [place, x, figure, base] =
        [MARGIN + NUMBERS, MARGIN + NUMBERS + 8.0, left + LENGTH + 8.0, y + 12.5].map(number);
    format!(
        "<g class=\"{class}\"><title>{} {}: {}</title>{}{}{}<text class=\"number\" x=\"{place}\" y=\"{base}\">{}</text>\
         <text class=\"name\" x=\"{x}\" y=\"{base}\">{}</text>\
         <text class=\"figure\" x=\"{figure}\" y=\"{base}\">{}</text></g>\n",
        escaped(&bar.number),
        escaped(&bar.name),
        escaped(&bar.figure),
        rect("rest", left, LENGTH),
        rect(bars.shades[0].class(), left, lengths[0]),
        rect(bars.shades[1].class(), left + lengths[0], lengths[1]),
        escaped(&bar.number),
        escaped(&cut(&bar.name, LONGEST)),
        escaped(&bar.figure)
    )
}

/// What doesn't depend on the scheme.
pub(super) const SHAPE: &str = "\
.number{text-anchor:end}
.answer .number,.answer .name,.answer .figure{font-weight:bold}
.strong,.light{stroke-width:1}
";

/// Grounds of the parts, which an edge keeps apart.
pub(super) fn colours(scheme: &Scheme) -> String {
    let Scheme { panel, ink, .. } = scheme;
    let [strong, light] = [scheme.shades[1].0, scheme.shades[3].0];
    format!(".rest{{fill:{panel}}}\n.strong{{fill:{strong};stroke:{ink}}}\n.light{{fill:{light};stroke:{ink}}}\n")
}

#[cfg(test)]
mod tests {
    use super::*;
    use roxmltree::Document;

    fn pictured(parts: &[[f64; 2]]) -> String {
        let bar = |parts: &[f64; 2]| Bar {
            number: "1.".to_owned(),
            name: "Harbour & <Two> of a very long name".to_owned(),
            parts: *parts,
            figure: "x".to_owned(),
            rank: Rank::Answer,
        };
        let known = Bars {
            title: "t",
            description: "d".to_owned(),
            key: Some(["a", "b"]),
            shades: [Shade::Strong, Shade::Light],
            full: 10.0,
            bars: parts.iter().map(bar).collect(),
        };
        bars(&known).file()
    }

    #[test]
    fn bars_are_as_long_as_their_parts() {
        let svg = pictured(&[[2.5, 5.0], [0.0, 0.0], [7.0, 9.0]]);
        let tree = Document::parse(&svg).unwrap();
        let bars: Vec<_> = tree.descendants().filter(|node| node.attribute("class") == Some("bar answer")).collect();
        let lengths = |at: usize, class: &str| {
            let part = bars[at].children().find(|node| node.attribute("class") == Some(class));
            part.map(|part| ["x", "width"].map(|name| part.attribute(name).unwrap().parse::<f64>().unwrap()))
        };
        assert_eq!((lengths(0, "strong"), lengths(0, "light")), (Some([234.0, 65.0]), Some([299.0, 130.0])));
        assert_eq!((lengths(1, "strong"), lengths(1, "light")), (None, None));
        assert_eq!(lengths(2, "strong"), Some([234.0, 182.0]));
        let title = bars[0].children().find(|node| node.has_tag_name("title")).and_then(|title| title.text());
        assert_eq!(title, Some("1. Harbour & <Two> of a very long name: x"));
    }
}
