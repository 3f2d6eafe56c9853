//! Which pads to put into a helmet: to begin with, and after they were no good.

use super::event::OnHead;
use crate::catalogue::Catalogue;
use crate::fit::{AxisOption, AxisTable, Candidate, Customer, Good, HeadSet, PadSet, foam, minutes_between, with_pads};
use crate::plan::Swap;
use crate::profile::{Axis, Model, Zone};
use itertools::{Itertools, iproduct};
use std::collections::BTreeMap;

/// Pads that fit more rarely are no step of a session.
const WORTH_FROM: f64 = 0.02;

/// Other pads for the helmet on the head: those that are worth most, the chance of a good fit times what going without
/// costs, less the minutes. Pads that were in it already are none. `None` where nothing on offer has a chance.
pub(super) fn other<'a>(
    catalogue: &'a Catalogue,
    known: (&Customer<'a>, &HeadSet),
    helmet: &OnHead,
    were_in: &[&PadSet],
) -> Option<Swap<'a>> {
    let model = catalogue.model(helmet.model.as_str())?;
    let candidate = Candidate::of_size(model, &helmet.size, catalogue)?;
    let rooms = Rooms::of(catalogue, known, &candidate);
    let sets = sets(&candidate, &helmet.pads);
    let new = sets.iter().filter(|set| !were_in.iter().any(|known| feels_alike(known, &set.pads)));
    let swaps = new.filter_map(|set| {
        let fits = rooms.fits(set);
        let minutes = minutes_between(&helmet.pads, &set.pads, model) + catalogue.shop.minutes.recheck;
        let worth = fits * catalogue.shop.minutes.go_without - minutes;
        (fits >= WORTH_FROM).then_some((worth, Swap { model, size: helmet.size.clone(), pads: set.pads, minutes }))
    });
    swaps.reduce(|best, next| if next.0 > best.0 { next } else { best }).map(|(_, swap)| swap)
}

/// The pads to begin with: those with the fewest expected minutes for swaps and checks once more, to begin with and
/// until the head has pads that fit it.
pub(super) fn first(catalogue: &Catalogue, known: (&Customer<'_>, &HeadSet), candidate: &Candidate<'_>) -> PadSet {
    let standard = candidate.size.standard;
    let rooms = Rooms::of(catalogue, known, candidate);
    let again = Again { candidate, model: candidate.model, recheck: catalogue.shop.minutes.recheck };
    let sets = sets(candidate, &standard);
    let minutes = |set: &Set| minutes_between(&standard, &set.pads, candidate.model) + again.expected(&rooms, set);
    let best = sets.iter().map(|set| (minutes(set), set.pads));
    best.reduce(|best, next| if next.0 < best.0 { next } else { best }).map_or(standard, |(_, pads)| pads)
}

/// A set of pads, with its place among the choices of each axis.
struct Set {
    at: [usize; 3],
    pads: PadSet,
}

/// Every set on offer, as changes to the pads that are in the helmet: what feels like them on an axis is left as it is.
fn sets(candidate: &Candidate<'_>, mounted: &PadSet) -> Vec<Set> {
    let [length, breadth, face] = Axis::ALL.map(|axis| choices(candidate.axes[axis as usize].as_ref(), axis, mounted));
    let all = iproduct!(length.iter().enumerate(), breadth.iter().enumerate(), face.iter().enumerate());
    all.map(|((l, a), (b, c), (w, d))| Set {
        at: [l, b, w],
        pads: [a, c, d].into_iter().fold(*mounted, |set, own| with_pads(set, own)),
    })
    .collect()
}

/// What changes on an axis.
type Choice = Vec<(Zone, f64)>;

fn choices(table: Option<&AxisTable>, axis: Axis, mounted: &PadSet) -> Vec<Choice> {
    let choice = |option: &AxisOption| match (option.foam - foam(mounted, axis)).abs() < 1e-9 {
        true => Vec::new(),
        false => option.pads.clone(),
    };
    table.map_or_else(|| vec![Vec::new()], |table| table.options.iter().map(choice).collect())
}

/// By axis which choices are good, as bits, with the weight of the heads for which they are.
struct Rooms(Vec<(Good, f64)>);

impl Rooms {
    fn of(catalogue: &Catalogue, (customer, heads): (&Customer<'_>, &HeadSet), candidate: &Candidate<'_>) -> Self {
        let tried = heads.try_all(catalogue, customer, &[candidate]);
        let mut weight: BTreeMap<Good, f64> = BTreeMap::new();
        for (good, own) in tried.good_choices(candidate, 0).zip(&heads.heads.weight) {
            *weight.entry(good).or_default() += own;
        }
        Self(weight.into_iter().collect_vec())
    }

    /// How often a set fits.
    fn fits(&self, set: &Set) -> f64 {
        let fitting = self.0.iter().filter(|(good, _)| (0..3).all(|axis| good[axis] >> set.at[axis] & 1 == 1));
        fitting.map(|(_, weight)| weight).sum()
    }
}

/// What it takes to go on from pads that don't fit a head to some that do.
struct Again<'c, 'a> {
    candidate: &'c Candidate<'a>,
    model: &'a Model,
    recheck: f64,
}

impl Again<'_, '_> {
    /// Expected minutes, over the heads that some pads fit.
    fn expected(&self, rooms: &Rooms, set: &Set) -> f64 {
        let nearest = [0, 1, 2].map(|axis| self.nearest(axis, set));
        let fitting = rooms.0.iter().filter(|(good, _)| good.iter().all(|good| *good != 0));
        let minutes = fitting.map(|(good, weight)| {
            let swap: f64 = (0..3).map(|axis| least(&nearest[axis], good[axis])).sum();
            weight * if swap > 0.0 { swap + self.recheck } else { 0.0 }
        });
        minutes.sum()
    }

    /// Minutes from the set to each choice of an axis.
    fn nearest(&self, axis: usize, set: &Set) -> Vec<f64> {
        let Some(table) = &self.candidate.axes[axis] else { return vec![0.0] };
        let minutes = |option: &AxisOption| {
            let differs = |(zone, mm): &&(Zone, f64)| set.pads.get(*zone).is_none_or(|own| (own - mm).abs() > 1e-9);
            option.pads.iter().filter(differs).map(|(zone, _)| *self.model.swap_minutes.get(*zone)).sum()
        };
        let mut all: Vec<f64> = table.options.iter().map(minutes).collect();
        all[set.at[axis]] = 0.0;
        all
    }
}

/// The fewest minutes to a good choice.
fn least(minutes: &[f64], good: u64) -> f64 {
    let good = minutes.iter().enumerate().filter(|(at, _)| good >> at & 1 == 1);
    good.map(|(_, minutes)| *minutes).min_by(f64::total_cmp).unwrap_or(0.0)
}

/// Whether the head feels the same foam on every axis, and the crown the same pad.
fn feels_alike(a: &PadSet, b: &PadSet) -> bool {
    Axis::ALL.iter().all(|axis| (foam(a, *axis) - foam(b, *axis)).abs() < 1e-9)
        && a.get(Zone::Crown) == b.get(Zone::Crown)
}
