//! Whole sets of pads for one size: what there is, what a set costs and how long it takes to fit.

use super::axis::thicknesses;
use crate::profile::{ByZone, Model, Shell, Size, Zone};
use crate::supply::{self, Kind};
use crate::unit::Money;
use itertools::Itertools;

/// Thickness by zone, mm; `None` for a zone without a pad.
pub type PadSet = ByZone<Option<f64>>;

/// Every set that the shell offers for the size, the standard set first. The crown keeps its standard pad:
/// no measure of the head speaks about it.
#[must_use]
pub fn pad_sets(shell: &Shell, size: &Size) -> Vec<PadSet> {
    let choices = Zone::ALL.map(|zone| match (zone, size.standard.get(zone)) {
        (Zone::Crown, standard) => vec![*standard],
        (_, Some(mm)) => thicknesses(zone, *mm, shell, size).into_iter().map(Some).collect(),
        (_, None) => vec![None],
    });
    choices
        .into_iter()
        .multi_cartesian_product()
        .map(|pads| {
            let mut set = size.standard;
            for (zone, mm) in Zone::ALL.into_iter().zip(pads) {
                *set.get_mut(zone) = mm;
            }
            set
        })
        .collect()
}

/// The zones in which a set differs from the standard pads.
pub(super) fn swapped<'a>(set: &'a PadSet, size: &'a Size) -> impl Iterator<Item = (Zone, f64)> + 'a {
    changed(&size.standard, set)
}

/// A set with other pads in some zones.
#[must_use]
pub fn with_pads(mut set: PadSet, pads: &[Kind]) -> PadSet {
    for (zone, mm) in pads {
        *set.get_mut(*zone) = Some(*mm);
    }
    set
}

/// The zones in which two sets differ, with what the second has there.
pub fn changed<'a>(from: &'a PadSet, to: &'a PadSet) -> impl Iterator<Item = (Zone, f64)> + 'a {
    to.iter().filter_map(|(zone, mm)| match (mm, from.get(zone)) {
        (Some(mm), Some(before)) if (mm - before).abs() > 1e-9 => Some((zone, *mm)),
        _ => None,
    })
}

/// Minutes to swap from the standard pads to the set.
#[must_use]
pub fn swap_minutes(set: &PadSet, model: &Model, size: &Size) -> f64 {
    minutes_between(&size.standard, set, model)
}

/// Minutes to swap from one set to another.
#[must_use]
pub fn minutes_between(from: &PadSet, to: &PadSet, model: &Model) -> f64 {
    changed(from, to).map(|(zone, _)| *model.swap_minutes.get(zone)).sum()
}

/// The least that the pads of a set cost that are not standard.
#[must_use]
pub fn price(set: &PadSet, shell: &Shell, size: &Size) -> Money {
    // Sets are made of pads on offer.
    supply::price(&swapped(set, size).collect_vec(), shell, size).unwrap_or_default()
}
