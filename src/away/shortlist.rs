//! The parcels that are worth weighing against each other, and whom of the choosing heads each fits.

use super::costs::{Costs, minor};
use super::parcel::Parcel;
use crate::fit::{AxisOption, Candidate, Good, HeadSet, Outcomes, price};
use crate::unit::Money;
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
    /// The least that they cost.
    pub(super) price: Money,
    /// Bit by bit, the heads that it fits.
    pub(super) fits: Vec<u64>,
    /// And of them those that need its pads.
    pub(super) needs: Vec<u64>,
}

/// The parcels worth weighing.
pub(super) fn shortlist(candidates: &[Candidate<'_>], heads: &HeadSet, tried: &Outcomes, costs: Costs) -> Vec<Listed> {
    let weight = &heads.heads.weight;
    let sets = candidates.iter().enumerate().map(|(at, candidate)| {
        let groups = groups(candidate, tried, at, weight);
        let picked = picked(at, groups, &mountings(candidate, costs));
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
    for (good, weight) in tried.good_choices(candidate, at).zip(weight) {
        // Nobody has any use for a helmet in which an axis is bad whatever the pads.
        if good.iter().all(|good| *good != 0) {
            *groups.entry(good).or_default() += weight;
        }
    }
    groups.into_iter().collect()
}

/// Pad sets one after the other: each time the one that is worth most, where a head that one more set fits is worth a
/// quarter of what it was.
fn picked(at: usize, mut groups: Vec<(Good, f64)>, mountings: &[Vec<Mounting>; 3]) -> Vec<(Parcel, f64)> {
    let mut picked: Vec<(Parcel, f64)> = Vec::new();
    while picked.len() < PAD_SETS && !groups.is_empty() {
        let Some((parcel, value)) = best(at, &groups, mountings) else { break };
        if picked.iter().any(|(known, _)| *known == parcel) {
            break;
        }
        groups.iter_mut().filter(|(good, _)| parcel.fits(*good)).for_each(|(_, weight)| *weight /= 4.0);
        picked.push((parcel, value));
    }
    picked
}

/// What it takes to mount a choice of pads on an axis, as shares of what a fit saves.
#[derive(Debug, Clone, Copy)]
struct Mounting {
    minutes: f64,
    price: f64,
}

/// By axis and choice. Prices are taken axis by axis here; the list has the price of the whole set.
fn mountings(candidate: &Candidate<'_>, costs: Costs) -> [Vec<Mounting>; 3] {
    let mounting = |option: &AxisOption| {
        let mut set = candidate.size.standard;
        option.pads.iter().for_each(|(zone, mm)| *set.get_mut(*zone) = Some(*mm));
        Mounting {
            minutes: costs.share(costs.minute() * option.minutes),
            price: costs.share(minor(price(&set, candidate.shell, candidate.size))),
        }
    };
    candidate.axes.each_ref().map(|table| match table {
        Some(table) => table.options.iter().map(mounting).collect(),
        None => vec![Mounting { minutes: 0.0, price: 0.0 }],
    })
}

/// The pad set that is worth most: the heads that it fits, less minutes and pads that are not needed. Of equal ones the
/// earliest, so the standard pads come before all others.
fn best(at: usize, groups: &[(Good, f64)], mountings: &[Vec<Mounting>; 3]) -> Option<(Parcel, f64)> {
    let mut best: Option<(Parcel, f64)> = None;
    for (a, first) in mountings[0].iter().enumerate() {
        let front = good_with(groups.iter(), 0, a);
        for (b, second) in mountings[1].iter().enumerate() {
            let sides = good_with(front.iter().copied(), 1, b);
            for (c, third) in mountings[2].iter().enumerate() {
                let parcel = Parcel { candidate: at, options: [a, b, c] };
                let (mut fits, mut needed) = (0.0, 0.0);
                for (good, weight) in sides.iter().filter(|(good, _)| good[2] >> c & 1 == 1) {
                    fits += weight;
                    needed += if parcel.is_needed(*good) { *weight } else { 0.0 };
                }
                let minutes = first.minutes + second.minutes + third.minutes;
                let value = fits - minutes - (first.price + second.price + third.price) * (1.0 - needed);
                if best.is_none_or(|(_, known)| value > known + 1e-12) {
                    best = Some((parcel, value));
                }
            }
        }
    }
    best
}

fn good_with<'g>(groups: impl Iterator<Item = &'g (Good, f64)>, axis: usize, option: usize) -> Vec<&'g (Good, f64)> {
    groups.filter(|(good, _)| good[axis] >> option & 1 == 1).collect()
}

fn listed(parcel: Parcel, candidates: &[Candidate<'_>], tried: &Outcomes, weight: &[f64]) -> Listed {
    let candidate = &candidates[parcel.candidate];
    let none = vec![0; weight.len().div_ceil(64)];
    let mut listed = Listed {
        parcel,
        chance: 0.0,
        minutes: parcel.minutes(candidate),
        price: price(&parcel.pads(candidate), candidate.shell, candidate.size),
        fits: none.clone(),
        needs: none,
    };
    for (head, (good, weight)) in tried.good_choices(candidate, parcel.candidate).zip(weight).enumerate() {
        if parcel.fits(good) {
            listed.fits[head / 64] |= 1 << (head % 64);
            listed.needs[head / 64] |= u64::from(parcel.is_needed(good)) << (head % 64);
            listed.chance += weight;
        }
    }
    listed
}

impl Listed {
    /// Whether it fits a head.
    pub(super) fn fits_head(&self, head: usize) -> bool {
        self.fits[head / 64] >> (head % 64) & 1 == 1
    }
}

/// Weight of the heads whose bits are set.
pub(super) fn weight_of(bits: impl Iterator<Item = u64>, weight: &[f64]) -> f64 {
    let mut sum = 0.0;
    for (word, mut left) in bits.enumerate() {
        while left != 0 {
            sum += weight[word * 64 + left.trailing_zeros() as usize];
            left &= left - 1;
        }
    }
    sum
}
