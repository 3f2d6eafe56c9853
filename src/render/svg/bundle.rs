//! All rules from one model to another, drawn as one line whose label has their reasons.

use super::SMALL_SIZE;
use super::text::{number, width};
use crate::fallback::Excerpt;
use crate::layered::{Extent, Line, Point};
use crate::profile::{Edge, Nature, SizeHint};
use crate::render::markup::escaped;
use crate::unit::Id;
use itertools::Itertools;

/// Height of a reason in a label, room around all of them, and what the sample of the stroke takes.
const ROW: f64 = 15.0;
const PADDING: f64 = 5.0;
const SAMPLE: f64 = 20.0;

/// All rules from one model to another.
pub(super) struct Bundle<'a> {
    /// Places of the models among those that are shown.
    from: usize,
    to: usize,
    /// By reason, at least one.
    rules: Vec<&'a Edge>,
}

/// The rules, those of one pair of models together; in the order of the models.
pub(super) fn bundles<'a>(excerpt: &Excerpt<'a>) -> Vec<Bundle<'a>> {
    let place = |id: &Id| excerpt.models.iter().position(|model| model.id == *id);
    let ends = |edge: &'a Edge| Some((place(&edge.from)?, place(&edge.to)?));
    let pairs = excerpt.rules.iter().filter_map(|(_, edge)| Some((ends(edge)?, *edge))).into_group_map();
    let bundle = |((from, to), rules): ((usize, usize), Vec<&'a Edge>)| {
        let rules =
            rules.into_iter().sorted_by_key(|edge| (edge.reason.nature() != Nature::Stop, edge.reason)).collect();
        Bundle { from, to, rules }
    };
    pairs.into_iter().sorted_by_key(|(ends, _)| *ends).map(bundle).collect()
}

impl Bundle<'_> {
    /// What the layout has to know.
    pub(super) fn line(&self) -> Line {
        let weight = u32::try_from(self.rules.len()).unwrap_or(u32::MAX);
        Line { from: self.from, to: self.to, weight, label: self.extent() }
    }

    /// The kind that its line shows: the gravest, and geometry before experience.
    pub(super) fn nature(&self) -> Nature {
        let natures = || self.rules.iter().map(|edge| edge.reason.nature());
        if natures().contains(&Nature::Stop) { Nature::Stop } else { natures().min().unwrap_or(Nature::Experience) }
    }

    /// The label, with a title for each rule.
    pub(super) fn drawn(&self, excerpt: &Excerpt<'_>, middle: Point) -> String {
        let extent = self.extent();
        let (left, top) = (middle.x - extent.width / 2.0, middle.y - extent.height / 2.0);
        let [x, y, w, h] = [left, top, extent.width, extent.height].map(number);
        let mut svg = format!("<g class=\"label\"><rect x=\"{x}\" y=\"{y}\" width=\"{w}\" height=\"{h}\" rx=\"4\"/>\n");
        for (at, edge) in self.rules.iter().enumerate() {
            let y = top + PADDING + ROW * (at as f64 + 0.5);
            let sample = sample(edge.reason.nature(), Point { x: left + PADDING, y });
            let [text_x, text_y] = [left + PADDING + SAMPLE, y + 4.0].map(number);
            svg.push_str(&format!(
                "<g class=\"rule\" data-edge=\"{}\"><title>{}</title>{sample}<text x=\"{text_x}\" y=\"{text_y}\">{}</text></g>\n",
                escaped(&self.key(at)),
                escaped(&title(excerpt, edge)),
                escaped(&words(edge)),
            ));
        }
        svg.push_str("</g>\n");
        svg
    }

    /// What a rule is known by: from, reason and to; where the shop has the same once more, for another size, its number.
    fn key(&self, at: usize) -> String {
        let edge = self.rules[at];
        let before = self.rules[..at].iter().filter(|other| other.reason == edge.reason).count();
        let number = if before == 0 { String::new() } else { format!(" {}", before + 1) };
        format!("{} {} {}{number}", edge.from, edge.reason.id(), edge.to)
    }

    fn extent(&self) -> Extent {
        let text = self.rules.iter().map(|edge| width(&words(edge), SMALL_SIZE)).fold(0.0, f64::max);
        Extent { width: text + SAMPLE + 2.0 * PADDING, height: ROW * self.rules.len() as f64 + 2.0 * PADDING }
    }
}

/// A short piece of the stroke of a kind, beginning here.
pub(super) fn sample(nature: Nature, from: Point) -> String {
    let [x, y] = [from.x, from.y].map(number);
    let class = nature.name();
    let line = format!("<path class=\"line {class}\" d=\"M{x} {y}h16\"/>");
    if nature == Nature::Stop { format!("{line}<path class=\"core\" d=\"M{x} {y}h16\"/>") } else { line }
}

/// The reason, and the size where it isn't the same one.
fn words(edge: &Edge) -> String {
    let reason = edge.reason.id();
    match &edge.size {
        Some(SizeHint::Same) => reason.to_owned(),
        Some(size) => format!("{reason} ({})", size.as_written()),
        None => format!("{reason} (any)"),
    }
}

fn title(excerpt: &Excerpt<'_>, edge: &Edge) -> String {
    let size = match &edge.size {
        None => "in any size".to_owned(),
        Some(SizeHint::Same) => "in the same size".to_owned(),
        Some(SizeHint::Up) => "a size up".to_owned(),
        Some(SizeHint::Down) => "a size down".to_owned(),
        Some(SizeHint::Label(label)) => format!("in {label}"),
    };
    let [from, to] = [&edge.from, &edge.to].map(|id| excerpt.name(id));
    format!("{from}, if {}: try {to} {size} ({})", edge.reason.words(), edge.note)
}
