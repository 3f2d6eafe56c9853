//! What a maker doesn't offer for a model: pads, tunable zones, sizes.

use crate::profile::{BuyingRules, MOST_PADS, Model, PAD_MM, Pad, Plausible, Shell, Size, Supply, Zone};
use crate::range::design::{Rung, steps};
use crate::supply::on_offer;
use crate::unit::{Id, Money};
use itertools::Itertools;

/// Something that a maker could offer for a model.
#[derive(Debug, Clone, PartialEq)]
pub enum Missing {
    /// One more thickness for a zone of a shell.
    Pad {
        /// The shell.
        shell: Id,
        /// The zone.
        zone: Zone,
        /// Its thickness, mm.
        thickness: f64,
    },
    /// Pads for a zone that has none on offer.
    Zone {
        /// The zone.
        zone: Zone,
        /// For each shell without them the thicknesses, ascending, mm.
        pads: Vec<(Id, Vec<f64>)>,
    },
    /// A size.
    Size {
        /// Its label and range.
        rung: Rung,
        /// The size whose pads it has.
        like: Id,
    },
}

impl Missing {
    /// The model with it.
    #[must_use]
    pub fn added_to(&self, model: &Model) -> Model {
        let mut changed = model.clone();
        match self {
            Self::Pad { shell, zone, thickness } => changed.offer(shell, *zone, &[*thickness]),
            Self::Zone { zone, pads } => pads.iter().for_each(|(shell, pads)| changed.offer(shell, *zone, pads)),
            Self::Size { rung, like } => changed.shells.extend(shell_of_its_own(model, rung, like)),
        }
        changed
    }
}

impl Model {
    /// Puts pads on offer for every size of a shell.
    fn offer(&mut self, shell: &Id, zone: Zone, pads: &[f64]) {
        let shells = self.shells.iter_mut().filter(|known| known.id == *shell);
        shells.for_each(|shell| shell.pads.extend(pads.iter().map(|mm| single(zone, *mm))));
    }
}

/// A pad of which nothing counts here but its thickness.
fn single(zone: Zone, thickness: f64) -> Pad {
    Pad { zone, thickness, supply: Supply::Single(Money::default()), sizes: None }
}

/// A size with the standard pads of another one, and with the pads that are on offer for that.
fn shell_of_its_own(model: &Model, rung: &Rung, like: &Id) -> Option<Shell> {
    let (shell, size) = model.size(like)?;
    let offered = |zone| on_offer(shell, size, zone).into_iter().map(move |mm| single(zone, mm));
    let own = Size {
        label: rung.label.clone(),
        circumference: rung.circumference,
        standard: size.standard,
        measured: None,
        face_width: None,
        runs_larger: 0.0,
    };
    let pads = Zone::ALL.into_iter().flat_map(offered).collect();
    Some(Shell { id: rung.label.clone(), sizes: vec![own], pads, packs: Vec::new(), centre_sd: shell.centre_sd })
}

/// The zones with a measure of the head for them.
pub(super) fn zones() -> impl Iterator<Item = Zone> {
    Zone::ALL.into_iter().filter(|zone| zone.axis().is_some())
}

/// Thicknesses that could be added to a zone of a shell that has pads on offer, ascending, mm: in half millimetres, a
/// zone's usual span beyond what there is. None where a profile has no room for another one.
pub(super) fn thicknesses(shell: &Shell, zone: Zone, rules: &BuyingRules, plausible: &Plausible) -> Vec<f64> {
    let known = offered(shell, zone);
    if known.is_empty() || known.len() >= MOST_PADS {
        return Vec::new();
    }
    let is_new = |mm: &f64| known.iter().all(|other| (other - mm).abs() > HALF_MM / 2.0);
    let Some((least, most)) = span(shell, zone, rules, plausible) else { return Vec::new() };
    grid(least, most, HALF_MM).filter(is_new).collect()
}

/// Pads come in half millimetres (common practice, no source).
const HALF_MM: f64 = 0.5;

/// The zone made tunable wherever it isn't; `None` where it is, or has no pads.
pub(super) fn zone(model: &Model, zone: Zone, rules: &BuyingRules, plausible: &Plausible) -> Option<Missing> {
    let without = model.shells.iter().filter(|shell| offered(shell, zone).is_empty());
    let pads = without.filter_map(|shell| {
        let (least, most) = span(shell, zone, rules, plausible)?;
        // As many as a profile has room for, at least the usual step apart.
        #[expect(clippy::cast_precision_loss, reason = "a handful")]
        let apart = ((most - least) / (MOST_PADS - 1) as f64 / HALF_MM).ceil() * HALF_MM;
        Some((shell.id.clone(), grid(least, most, apart.max(rules.pad_step)).collect_vec()))
    });
    let pads = pads.collect_vec();
    (!pads.is_empty()).then_some(Missing::Zone { zone, pads })
}

/// The sizes of a ladder that a model lacks, each with the size next to it.
pub(super) fn sizes(model: &Model, ladder: &[Rung]) -> Vec<Missing> {
    let overlaps = |rung: &Rung, size: &Size| {
        rung.circumference.0 < size.circumference.1 && size.circumference.0 < rung.circumference.1
    };
    let is_there = |rung: &&Rung| {
        model.sizes().any(|(_, size)| size.label == rung.label || overlaps(rung, size))
            || model.shells.iter().any(|shell| shell.id == rung.label)
    };
    let nearest = |rung: &Rung| {
        let centre = f64::midpoint(rung.circumference.0, rung.circumference.1);
        let distance = |size: &Size| (size.centre() - centre).abs();
        model.sizes().map(|(_, size)| size).min_by(|a, b| distance(a).total_cmp(&distance(b)))
    };
    let missing = ladder.iter().filter(|rung| !is_there(rung));
    missing.filter_map(|rung| Some(Missing::Size { rung: rung.clone(), like: nearest(rung)?.label.clone() })).collect()
}

/// Whatever is on offer for the zone, for some size.
fn offered(shell: &Shell, zone: Zone) -> Vec<f64> {
    shell.pads.iter().filter(|pad| pad.zone == zone).map(|pad| pad.thickness).collect()
}

/// From so many steps below the thinnest to so many above the thickest of what there is, the standard pads with it.
fn span(shell: &Shell, zone: Zone, rules: &BuyingRules, plausible: &Plausible) -> Option<(f64, f64)> {
    let standard = shell.sizes.iter().map(|size| *size.standard.get(zone)).collect::<Option<Vec<_>>>()?;
    let known = offered(shell, zone).into_iter().chain(standard).minmax().into_option()?;
    let beyond = f64::from(steps(rules.pads_each_way)) * rules.pad_step;
    let least = (known.0 - beyond).max(*plausible.thickness.start()).max(*PAD_MM.start());
    let most = (known.1 + beyond).min(*plausible.thickness.end()).min(*PAD_MM.end());
    (least <= most).then_some((least, most))
}

/// From one number to another, both rounded into the range in half millimetres.
fn grid(least: f64, most: f64, apart: f64) -> impl Iterator<Item = f64> {
    let first = (least / HALF_MM).ceil() * HALF_MM;
    itertools::iterate(first, move |mm| mm + apart).take_while(move |mm| *mm <= most + 1e-9)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_grid_lies_in_half_millimetres() {
        assert_eq!(grid(3.2, 5.0, 0.5).collect_vec(), [3.5, 4.0, 4.5, 5.0]);
        assert_eq!(grid(5.0, 17.5, 2.5).count(), 6);
    }
}
