//! Fresh heads look at what was chosen: how often it fits, whom, and what it costs.

use super::costs::Costs;
use super::parcel::{Parcel, good_choices};
use super::{Means, Proposal, Sent};
use crate::catalogue::Catalogue;
use crate::fit::{Candidate, Customer, HeadSet, Quote, price, swap_minutes};
use crate::head::shape_index;
use itertools::Itertools;

/// Sets of heads that did not choose.
pub(super) struct Judges<'a> {
    catalogue: &'a Catalogue,
    customer: &'a Customer<'a>,
    sets: &'a [HeadSet],
}

/// A proposal, and what it costs by judge.
pub(super) type Judged = (Proposal, Vec<f64>);

impl<'a> Judges<'a> {
    pub(super) fn new(catalogue: &'a Catalogue, customer: &'a Customer<'a>, sets: &'a [HeadSet]) -> Self {
        Self { catalogue, customer, sets }
    }

    /// One parcel, or two.
    pub(super) fn judge(&self, candidates: &[Candidate<'_>], parcels: &[Parcel], costs: Costs) -> Judged {
        // By set, parcel and head.
        let fits = self.sets.iter().map(|set| self.fits(set, candidates, parcels)).collect_vec();
        let share = |wanted: &dyn Fn(&[bool]) -> bool| Quote::of(self.shares(&fits, wanted).into_iter());
        let minutes = parcels.iter().map(|parcel| parcel.minutes(&candidates[parcel.candidate])).sum();
        let chances = self.shares(&fits, &|fits| fits.iter().any(|fits| *fits));
        let cost = |chance: &f64| match parcels {
            [_] => costs.one(*chance, minutes),
            _ => costs.two(*chance, minutes),
        };
        let paid = chances.iter().map(cost).collect_vec();
        let sent = parcels.iter().enumerate().map(|(at, parcel)| {
            let only = move |fits: &[bool]| fits.iter().enumerate().all(|(k, fits)| *fits == (k == at));
            let candidate = &candidates[parcel.candidate];
            let pads = parcel.pads(candidate);
            Sent {
                candidate: parcel.candidate,
                minutes: swap_minutes(&pads, candidate.model, candidate.size),
                price: price(&pads, candidate.shell, candidate.size),
                pads,
                fit: share(&|fits| fits[at]),
                alone: share(&only),
                whom: self.means(&fits, &only),
            }
        });
        let proposal = Proposal {
            sent: sent.collect(),
            chance: Quote::of(chances.iter().copied()),
            cost: Quote::of(paid.iter().copied()),
        };
        (proposal, paid)
    }

    /// By head, which parcels fit.
    fn fits(&self, set: &HeadSet, candidates: &[Candidate<'_>], parcels: &[Parcel]) -> Vec<Vec<bool>> {
        // Sizes of a model stand side by side.
        let chosen = parcels.iter().map(|parcel| parcel.candidate).sorted().collect_vec();
        let tried = set.try_all(self.catalogue, self.customer, &chosen.iter().map(|at| &candidates[*at]).collect_vec());
        let column = |parcel: &Parcel| {
            let place = chosen.iter().position(|at| *at == parcel.candidate).unwrap_or(0);
            let good = good_choices(&candidates[parcel.candidate], &tried, place);
            good.map(|good| parcel.fits(good)).collect_vec()
        };
        let columns = parcels.iter().map(column).collect_vec();
        (0..tried.heads()).map(|head| columns.iter().map(|column| column[head]).collect()).collect()
    }

    /// By judge, the share of the heads that are wanted.
    fn shares(&self, fits: &[Vec<Vec<bool>>], wanted: &dyn Fn(&[bool]) -> bool) -> Vec<f64> {
        let judged = self.sets.iter().zip(fits);
        judged.map(|(set, fits)| weights(set, fits, wanted).map(|(_, weight)| weight).sum()).collect()
    }

    /// Means of the heads that are wanted; `None` where there are none.
    fn means(&self, fits: &[Vec<Vec<bool>>], wanted: &dyn Fn(&[bool]) -> bool) -> Option<Means> {
        let mut sums = [0.0; 3];
        for (set, fits) in self.sets.iter().zip(fits) {
            for (at, weight) in weights(set, fits, wanted) {
                let head = set.heads.head(at);
                let values = [1.0, head.circumference, shape_index(head.length, head.breadth)];
                sums.iter_mut().zip(values).for_each(|(sum, value)| *sum += weight * value);
            }
        }
        let [mass, circumference, index] = sums;
        (mass > 0.0).then(|| Means { circumference: circumference / mass, shape_index: index / mass })
    }
}

/// The heads that are wanted, with their weights.
fn weights<'h>(
    set: &'h HeadSet,
    fits: &'h [Vec<bool>],
    wanted: &'h dyn Fn(&[bool]) -> bool,
) -> impl Iterator<Item = (usize, f64)> + 'h {
    let heads = set.heads.weight.iter().zip(fits).enumerate().filter(|(_, (_, fits))| wanted(fits));
    heads.map(|(at, (weight, _))| (at, *weight))
}
