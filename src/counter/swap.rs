//! Other pads for the helmet on the head: which of all that are on offer are worth most.

use super::event::OnHead;
use super::opening::size_is_known;
use crate::catalogue::Catalogue;
use crate::fit::{AxisOption, AxisTable, Candidate, Customer, HeadSet, PadSet, foam, minutes_between};
use crate::head::PARTICLES;
use crate::plan::Swap;
use crate::profile::{Axis, Zone};
use itertools::{Itertools, iproduct};
use std::collections::BTreeMap;

/// Pads that fit more rarely are no step of a session.
const WORTH_FROM: f64 = 0.02;

/// The pads that are worth most in a helmet: the chance of a good fit times what going without costs, less the minutes.
/// Pads that were in it already are none. `None` where nothing on offer has a chance.
pub(super) fn best<'a>(
    catalogue: &'a Catalogue,
    customer: &Customer<'a>,
    helmet: &OnHead,
    were_in: &[&PadSet],
) -> Option<Swap<'a>> {
    size_is_known(catalogue, &helmet.model, &helmet.size).ok()?;
    let model = catalogue.model(helmet.model.as_str())?;
    let candidate = Candidate::of_models([model], catalogue).into_iter().find(|c| c.size.label == helmet.size)?;
    let rooms = rooms(catalogue, customer, &candidate);
    let choices = Axis::ALL.map(|axis| choices(candidate.axes[axis as usize].as_ref(), axis, &helmet.pads));
    let recheck = catalogue.shop.minutes.recheck;
    let mut best: Option<(f64, Swap<'a>)> = None;
    for (length, breadth, face) in iproduct!(&choices[0], &choices[1], &choices[2]) {
        let pads = [length, breadth, face].iter().fold(helmet.pads, |set, choice| choice.put_into(set));
        if were_in.iter().any(|set| feels_alike(set, &pads)) {
            continue;
        }
        let fits: f64 = rooms
            .iter()
            .filter(|(good, _)| length.is_in(good[0]) && breadth.is_in(good[1]) && face.is_in(good[2]))
            .map(|(_, weight)| weight)
            .sum();
        let minutes = minutes_between(&helmet.pads, &pads, model) + recheck;
        let worth = fits * catalogue.shop.minutes.go_without - minutes;
        if fits >= WORTH_FROM && best.as_ref().is_none_or(|(most, _)| worth > *most) {
            best = Some((worth, Swap { model, size: helmet.size.clone(), pads, minutes }));
        }
    }
    best.map(|(_, swap)| swap)
}

/// One choice of pads on an axis: the bit that is set where it is good.
struct Choice {
    bit: u64,
    pads: Vec<(Zone, f64)>,
}

impl Choice {
    fn put_into(&self, mut set: PadSet) -> PadSet {
        for (zone, mm) in &self.pads {
            *set.get_mut(*zone) = Some(*mm);
        }
        set
    }

    fn is_in(&self, good: u64) -> bool {
        good & self.bit != 0
    }
}

/// The choices on an axis; one that feels like the pads in the helmet is these pads.
fn choices(table: Option<&AxisTable>, axis: Axis, mounted: &PadSet) -> Vec<Choice> {
    let Some(table) = table else { return vec![Choice { bit: u64::MAX, pads: Vec::new() }] };
    let choice = |(at, option): (usize, &AxisOption)| {
        let is_in = (option.foam - foam(mounted, axis)).abs() < 1e-9;
        Choice { bit: 1 << at, pads: if is_in { Vec::new() } else { option.pads.clone() } }
    };
    table.options.iter().enumerate().map(choice).collect()
}

/// By axis which choices are good, with the weight of the heads for which they are.
fn rooms(catalogue: &Catalogue, customer: &Customer<'_>, candidate: &Candidate<'_>) -> Vec<([u64; 3], f64)> {
    let heads = HeadSet::draw(catalogue, customer, PARTICLES, 0);
    let tried = heads.try_all(catalogue, customer, &[candidate]);
    let mut weight: BTreeMap<[u64; 3], f64> = BTreeMap::new();
    for (head, own) in heads.heads.weight.iter().enumerate() {
        let good = [0, 1, 2].map(|axis| match &candidate.axes[axis] {
            Some(table) => table.cells[usize::from(tried.cells[0][axis][head])].good,
            None => u64::MAX,
        });
        *weight.entry(good).or_default() += own;
    }
    weight.into_iter().collect_vec()
}

/// Whether the head feels the same foam on every axis, and the crown the same pad.
fn feels_alike(a: &PadSet, b: &PadSet) -> bool {
    Axis::ALL.iter().all(|axis| (foam(a, *axis) - foam(b, *axis)).abs() < 1e-9)
        && a.get(Zone::Crown) == b.get(Zone::Crown)
}
