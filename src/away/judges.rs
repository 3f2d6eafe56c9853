//! Fresh heads look at what was chosen: how often it fits, whom, and what it costs.

use super::costs::Costs;
use super::parcel::Parcel;
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

/// What a parcel does for a head.
#[derive(Debug, Clone, Copy)]
struct Look {
    fits: bool,
    /// It fits, and with its standard pads it would not.
    needs: bool,
}

/// A proposal, and what it costs by judge.
pub(super) type Judged = (Proposal, Vec<f64>);

impl<'a> Judges<'a> {
    pub(super) fn new(catalogue: &'a Catalogue, customer: &'a Customer<'a>, sets: &'a [HeadSet]) -> Self {
        Self { catalogue, customer, sets }
    }

    /// One parcel, or two.
    pub(super) fn judge(&self, candidates: &[Candidate<'_>], parcels: &[Parcel], costs: Costs) -> Judged {
        let seen = self.sets.iter().map(|set| self.look(set, candidates, parcels)).collect_vec();
        let share = |wanted: &dyn Fn(&[Look]) -> bool| Quote::of(self.shares(&seen, wanted).into_iter());
        let sent = parcels.iter().enumerate().map(|(at, parcel)| {
            let only = move |looks: &[Look]| looks.iter().enumerate().all(|(k, look)| look.fits == (k == at));
            let candidate = &candidates[parcel.candidate];
            let pads = parcel.pads(candidate);
            Sent {
                candidate: parcel.candidate,
                minutes: swap_minutes(&pads, candidate.model, candidate.size),
                price: price(&pads, candidate.shell, candidate.size),
                pads,
                fit: share(&|looks| looks[at].fits),
                alone: share(&only),
                whom: self.means(&seen, &only),
            }
        });
        let sent = sent.collect_vec();
        let chances = self.shares(&seen, &|looks| looks.iter().any(|look| look.fits));
        let paid = self.paid(&seen, &sent, &chances, costs);
        let (chance, cost) = (Quote::of(chances.into_iter()), Quote::of(paid.iter().copied()));
        (Proposal { sent, chance, cost }, paid)
    }

    /// What it costs, by judge. The first helmet that fits is kept.
    fn paid(&self, seen: &[Vec<Vec<Look>>], sent: &[Sent], chances: &[f64], costs: Costs) -> Vec<f64> {
        let needed = (0..sent.len())
            .map(|at| self.shares(seen, &|looks| looks[at].needs && !looks[..at].iter().any(|earlier| earlier.fits)));
        let needed = needed.collect_vec();
        let paid = |(judge, chance): (usize, &f64)| {
            let mounting = |(sent, needed): (&Sent, &Vec<f64>)| costs.mounting(sent.minutes, sent.price, needed[judge]);
            let mounting = sent.iter().zip(&needed).map(mounting).sum();
            if sent.len() == 1 { costs.one(*chance, mounting) } else { costs.two(*chance, mounting) }
        };
        chances.iter().enumerate().map(paid).collect()
    }

    /// By head, what each parcel does.
    fn look(&self, set: &HeadSet, candidates: &[Candidate<'_>], parcels: &[Parcel]) -> Vec<Vec<Look>> {
        // Sizes of a model stand side by side.
        let chosen = parcels.iter().map(|parcel| parcel.candidate).sorted().collect_vec();
        let tried = set.try_all(self.catalogue, self.customer, &chosen.iter().map(|at| &candidates[*at]).collect_vec());
        let column = |parcel: &Parcel| {
            let place = chosen.iter().position(|at| *at == parcel.candidate).unwrap_or(0);
            let good = tried.good_choices(&candidates[parcel.candidate], place);
            good.map(|good| Look { fits: parcel.fits(good), needs: parcel.is_needed(good) }).collect_vec()
        };
        let columns = parcels.iter().map(column).collect_vec();
        (0..tried.heads()).map(|head| columns.iter().map(|column| column[head]).collect()).collect()
    }

    /// By judge, the share of the heads that are wanted.
    fn shares(&self, seen: &[Vec<Vec<Look>>], wanted: &dyn Fn(&[Look]) -> bool) -> Vec<f64> {
        let judged = self.sets.iter().zip(seen);
        judged.map(|(set, seen)| weights(set, seen, wanted).map(|(_, weight)| weight).sum()).collect()
    }

    /// Means of the heads that are wanted; `None` where there are none.
    fn means(&self, seen: &[Vec<Vec<Look>>], wanted: &dyn Fn(&[Look]) -> bool) -> Option<Means> {
        let mut sums = [0.0; 3];
        for (set, seen) in self.sets.iter().zip(seen) {
            for (at, weight) in weights(set, seen, wanted) {
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
    seen: &'h [Vec<Look>],
    wanted: &'h dyn Fn(&[Look]) -> bool,
) -> impl Iterator<Item = (usize, f64)> + 'h {
    let heads = set.heads.weight.iter().zip(seen).enumerate().filter(|(_, (_, looks))| wanted(looks));
    heads.map(|(at, (weight, _))| (at, *weight))
}
