//! The parcels that are worth weighing against each other, and whom of the choosing heads each fits.

use super::parcel::{Good, Parcel, good_choices};
use crate::fit::{Candidate, HeadSet, Outcomes};
use itertools::Itertools;
use std::collections::BTreeMap;

/// Models in sizes on the list.
const CANDIDATES: usize = 48;

/// Pad sets of each: the best one, and others that fit whom it leaves out.
const PAD_SETS: usize = 8;

/// A parcel with the heads that it fits.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Listed {
    pub(super) parcel: Parcel,
    /// Its chance of a fit.
    pub(super) chance: f64,
    /// Minutes to mount its pads.
    pub(super) minutes: f64,
    /// Bit by bit, the heads that it fits.
    pub(super) fits: Vec<u64>,
}

/// The parcels worth weighing. `minute` is what a minute of mounting costs, as a share of what a fit is worth.
pub(super) fn shortlist(candidates: &[Candidate<'_>], heads: &HeadSet, tried: &Outcomes, minute: f64) -> Vec<Listed> {
    let weight = &heads.heads.weight;
    let sets = candidates.iter().enumerate().map(|(at, candidate)| {
        let groups = groups(candidate, tried, at, weight);
        let picked = picked(candidate, at, groups, minute);
        let best = picked.first().map_or(0.0, |(_, value)| *value);
        (best, picked)
    });
    let ranked = sets.sorted_by(|a, b| b.0.total_cmp(&a.0)).take(CANDIDATES);
    let parcels = ranked.flat_map(|(_, picked)| picked).map(|(parcel, _)| parcel);
    parcels.map(|parcel| listed(parcel, candidates, tried, weight)).collect()
}

/// Heads that are alike in a candidate: what is good for them, and how much they weigh.
fn groups(candidate: &Candidate<'_>, tried: &Outcomes, at: usize, weight: &[f64]) -> Vec<(Good, f64)> {
    let mut groups: BTreeMap<Good, f64> = BTreeMap::new();
    for (good, weight) in good_choices(candidate, tried, at).zip(weight) {
        // Nobody has any use for a helmet in which an axis is bad whatever the pads.
        if good.iter().all(|good| *good != 0) {
            *groups.entry(good).or_default() += weight;
        }
    }
    groups.into_iter().collect()
}

/// Pad sets one after the other: each time the one that is worth most, where a head that one more set fits is worth a
/// quarter of what it was.
fn picked(candidate: &Candidate<'_>, at: usize, mut groups: Vec<(Good, f64)>, minute: f64) -> Vec<(Parcel, f64)> {
    let mut picked: Vec<(Parcel, f64)> = Vec::new();
    while picked.len() < PAD_SETS && !groups.is_empty() {
        let Some((parcel, value)) = best(candidate, at, &groups, minute) else { break };
        if picked.iter().any(|(known, _)| *known == parcel) {
            break;
        }
        groups.iter_mut().filter(|(good, _)| parcel.fits(*good)).for_each(|(_, weight)| *weight /= 4.0);
        picked.push((parcel, value));
    }
    picked
}

/// The pad set that is worth most: the heads that it fits less its minutes. Of equal ones the earliest, so the standard
/// pads come before all others.
fn best(candidate: &Candidate<'_>, at: usize, groups: &[(Good, f64)], minute: f64) -> Option<(Parcel, f64)> {
    let minutes = [0, 1, 2].map(|axis| match &candidate.axes[axis] {
        Some(table) => table.options.iter().map(|option| option.minutes * minute).collect_vec(),
        None => vec![0.0],
    });
    let mut best: Option<([usize; 3], f64)> = None;
    for (a, first) in minutes[0].iter().enumerate() {
        let front = good_with(groups.iter(), 0, a);
        for (b, second) in minutes[1].iter().enumerate() {
            let sides = good_with(front.iter().copied(), 1, b);
            for (c, third) in minutes[2].iter().enumerate() {
                let fits: f64 = sides.iter().filter(|(good, _)| good[2] >> c & 1 == 1).map(|(_, weight)| weight).sum();
                let value = fits - first - second - third;
                if best.is_none_or(|(_, known)| value > known + 1e-12) {
                    best = Some(([a, b, c], value));
                }
            }
        }
    }
    best.map(|(options, value)| (Parcel { candidate: at, options }, value))
}

fn good_with<'g>(
    groups: impl Iterator<Item = &'g (Good, f64)>,
    axis: usize,
    option: usize,
) -> Vec<&'g (Good, f64)> {
    groups.filter(|(good, _)| good[axis] >> option & 1 == 1).collect()
}

fn listed(parcel: Parcel, candidates: &[Candidate<'_>], tried: &Outcomes, weight: &[f64]) -> Listed {
    let candidate = &candidates[parcel.candidate];
    let mut fits = vec![0; weight.len().div_ceil(64)];
    let mut chance = 0.0;
    for (head, (good, weight)) in good_choices(candidate, tried, parcel.candidate).zip(weight).enumerate() {
        if parcel.fits(good) {
            fits[head / 64] |= 1 << (head % 64);
            chance += weight;
        }
    }
    Listed { parcel, chance, minutes: parcel.minutes(candidate), fits }
}

impl Listed {
    /// Whether it fits a head.
    pub(super) fn fits_head(&self, head: usize) -> bool {
        self.fits[head / 64] >> (head % 64) & 1 == 1
    }
}
