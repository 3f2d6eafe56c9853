//! Heads in the words of the trade.

use crate::profile::Model;
use crate::range::Region;
use itertools::Itertools;

/// A region, with the size that its circumference stands for on most labels: `61 to 63 cm (XL), rounder than 82`.
pub(in crate::render) fn region<'a>(region: &Region, models: impl Iterator<Item = &'a Model>) -> String {
    let around = region.circumference();
    let cm = ends(around.map(|end| end.map(|mm| mm / 10.0)), |end| format!("{end:.0}"));
    let around = cm.map(|(from, to)| match (from, to) {
        (Some(from), Some(to)) => format!("{from} to {to} cm"),
        (Some(from), None) => format!("over {from} cm"),
        (None, to) => format!("under {} cm", to.unwrap_or_default()),
    });
    let size = size(region, models).map_or_else(String::new, |label| format!(" ({label})"));
    let shape = ends(region.shape_index(), |end| format!("{end:.0}")).map(|ends| match ends {
        (Some(from), Some(to)) => format!("shape index {from} to {to}"),
        (Some(from), None) => format!("rounder than {from}"),
        (None, to) => format!("longer than {}", to.unwrap_or_default()),
    });
    let face = ends(region.face_width(), |end| format!("{end:.0}")).map(|ends| match ends {
        (Some(from), Some(to)) => format!("face {from} to {to} mm wide"),
        (Some(from), None) => format!("face wider than {from} mm"),
        (None, to) => format!("face narrower than {} mm", to.unwrap_or_default()),
    });
    let mut parts = around.map(|around| format!("{around}{size}")).into_iter().chain(shape).chain(face);
    let words = parts.join(", ");
    if words.is_empty() { "All heads".to_owned() } else { capital(&words) }
}

/// Both ends in words; `None` where both are open.
fn ends(ends: [Option<f64>; 2], words: impl Fn(f64) -> String) -> Option<(Option<String>, Option<String>)> {
    let [from, to] = ends.map(|end| end.map(&words));
    (from.is_some() || to.is_some()).then_some((from, to))
}

/// What most models call the sizes that a region's circumferences lie in: one label, or the first and the last.
fn size<'a>(region: &Region, models: impl Iterator<Item = &'a Model>) -> Option<String> {
    let [from, to] = region.circumference();
    let (from, to) = (from.unwrap_or(0.0), to.unwrap_or(f64::INFINITY));
    let sizes = models.flat_map(|model| model.sizes().map(|(_, size)| size)).collect_vec();
    let (least, most) = sizes.iter().map(|size| size.centre()).minmax().into_option()?;
    // A region beyond all labels has no size; one at the end of them keeps that size.
    if to <= least - 10.0 || from >= most + 10.0 {
        return None;
    }
    let label = |mm: f64| {
        let near = |size: &&&crate::profile::Size| (size.centre() - mm).abs() <= 10.0;
        let named = sizes.iter().filter(near).counts_by(|size| size.label.as_str());
        named.into_iter().sorted().max_by_key(|(_, count)| *count).map(|(label, _)| label)
    };
    let [first, last] = [(from + 5.0).max(least), (to - 5.0).min(most)].map(label);
    match (first?, last?) {
        (first, last) if first == last => Some(first.to_owned()),
        (first, last) => Some(format!("{first} to {last}")),
    }
}

/// Words at the beginning of a sentence.
pub(in crate::render) fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
