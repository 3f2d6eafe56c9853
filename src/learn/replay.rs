//! The records once more, with other profiles: what a fitter would have known, and what would truly have happened to
//! each head that the customer may have.

use super::customers::Visitor;
use super::testimony::found_by_hand;
use crate::catalogue::Catalogue;
use crate::fit::{Candidate, Customer, HeadSet, Worn, report_chance, reported};
use crate::head::{Posterior, Reading};
use crate::journal::{Head, Read, Record};
use itertools::Itertools;

/// How records are read: by the profiles under which they were written, with the figures of others.
#[derive(Debug, Clone, Copy)]
pub(super) struct Reader<'a> {
    /// The profiles as they are.
    pub(super) was: &'a Catalogue,
    /// The same with what was learned.
    pub(super) now: &'a Catalogue,
    /// Seed of every draw.
    pub(super) seed: u64,
}

/// What happens to each of a visitor's heads.
pub(super) struct Replayed {
    /// The heads, before any try.
    pub(super) heads: HeadSet,
    /// By record, in their order.
    pub(super) tries: Vec<Tried>,
}

/// What happens to each head in one try: 0 a good fit, else 1 + the true reason's place in [`Reason::geometric`].
pub(super) struct Tried {
    /// With the best pads on offer.
    pub(super) at_best: Vec<u8>,
    /// In each round, with the pads that were in it, and what was heard; rounds about which geometry speaks.
    pub(super) rounds: Vec<(Vec<u8>, u8)>,
}

impl<'a> Reader<'a> {
    /// What a record says of a head. A reading whose error was the shop's own figure gets the figure as learned, and so
    /// does the shop's population; what was said of one customer alone stays.
    pub(super) fn customer(&self, head: &Head) -> Customer<'a> {
        let readings = head.readings.iter().map(|read| self.reading(read)).collect_vec();
        let shops = &self.now.shop.population;
        let named = if head.population == self.was.shop.population { shops } else { &head.population };
        let population = self.now.population(named.as_str()).or_else(|| self.now.population(shops.as_str()));
        // A catalogue has the population that its shop names.
        let population = population.unwrap_or(&self.now.populations()[0]);
        let eye = head.shape.and_then(|shape| self.now.shop.by_eye.get(shape).copied());
        let worn = head.wears.iter().filter_map(|wears| {
            let model = self.now.model(wears.model.as_str())?;
            Some(Worn { model, size: wears.size.clone(), pads: None, reason: wears.reason })
        });
        Customer {
            head: Posterior::new(population, &readings, eye),
            population: population.id.clone(),
            worn: worn.collect(),
            readings,
            seed: self.seed,
        }
    }

    fn reading(&self, read: &Read) -> Reading {
        let sd = |catalogue: &Catalogue| catalogue.shop.reading_sd(read.by, read.with);
        let is_shops = sd(self.was).is_some_and(|was| (was - read.sd).abs() < 1e-9);
        let sd = if is_shops { sd(self.now).unwrap_or(read.sd) } else { read.sd };
        Reading { measure: read.measure, value: read.value, sd }
    }

    /// Tries a visitor's helmets on `count` heads that follow from `head`, each with a profile error of its own.
    pub(super) fn replay(&self, visitor: &Visitor<'_>, head: &Head, count: usize) -> Replayed {
        let customer = self.customer(head);
        let heads = HeadSet::draw(self.now, &customer, count, visitor.scramble());
        let tries = visitor.records.iter().map(|record| self.tried(record, &customer, &heads)).collect();
        Replayed { heads, tries }
    }

    fn tried(&self, record: &Record, customer: &Customer<'_>, heads: &HeadSet) -> Tried {
        let model = self.now.model(record.model.as_str());
        let candidate = model.and_then(|model| Candidate::of_size(model, &record.size, self.now));
        let truth = |candidate: &Candidate<'_>| {
            heads.try_all(self.now, customer, &[candidate]).reason.pop().unwrap_or_default()
        };
        let Some(candidate) = candidate else {
            return Tried { at_best: Vec::new(), rounds: Vec::new() };
        };
        let rules = &self.now.shop.fit;
        let rounds = record.rounds.iter().enumerate().filter_map(|(at, round)| {
            let heard = reported(round.reason)?;
            let mut mounted = candidate.clone().mounted(&round.pads, rules, 0.0);
            let found = found_by_hand(at, round.reason);
            for axis in (0..3).filter(|axis| found[*axis]) {
                mounted.axes[axis].clone_from(&candidate.axes[axis]);
            }
            Some((truth(&mounted), heard))
        });
        Tried { at_best: truth(&candidate), rounds: rounds.collect() }
    }
}

impl Tried {
    /// How probable it is for each head that all this was heard; see `fit::heads`.
    pub(super) fn likelihood(&self, misreport: f64) -> Vec<f64> {
        let mut likelihood = vec![1.0; self.at_best.len()];
        for (truth, heard) in &self.rounds {
            for (product, truth) in likelihood.iter_mut().zip(truth) {
                *product *= report_chance(truth == heard, misreport);
            }
        }
        likelihood
    }
}
