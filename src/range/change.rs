//! A range with models dropped, models added, or fewer pads.

mod alteration;
mod who;

pub use alteration::{Alteration, LeftOut, What, like, without_pads};
pub use who::Group;

use super::answers::Answers;
use super::count::Counted;
use super::map::Map;
use super::room::Pads;
use super::shelf::{Column, Shelf, taken};
use super::spread::{Spread, spreads};
use super::tally::{Change, ColumnSet, Columns, Pattern, Tally};
use crate::catalogue::Catalogue;
use crate::fit::{Candidate, Quote};
use crate::head::Particles;
use crate::profile::ShapeWords;
use crate::unit::Id;
use itertools::Itertools;
use who::Labels;

/// The range as it is and as it would be, side by side: every difference is one on the same heads and in the same worlds.
#[derive(Debug, Clone)]
pub struct WhatIf<'a> {
    /// All helmets, old and new.
    pub shelf: Shelf<'a>,
    before: ColumnSet,
    after: ColumnSet,
    /// The range with one alteration alone, for each of them.
    alone: Vec<ColumnSet>,
}

/// What alterations change.
#[derive(Debug, Clone, PartialEq)]
pub struct Changed {
    /// All of them together.
    pub together: Effects,
    /// Each alone, made to the range as it is.
    pub alone: Vec<Effects>,
    /// Customers who are served only afterwards, with the pads on offer: where most of them are.
    pub won: Vec<Group>,
    /// Customers who are served only before.
    pub lost: Vec<Group>,
}

/// What changes with the standard pads and with the pads on offer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Effects {
    /// With the standard pads.
    pub standard: Effect,
    /// With the pads on offer.
    pub on_offer: Effect,
}

/// What changes with some pads.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Effect {
    /// The share of the customers who are served before.
    pub before: Quote,
    /// The share of those who are served afterwards.
    pub after: Quote,
    /// Customers won and lost.
    pub change: Change,
    /// The change of the share where profiles are off.
    pub spread: Spread,
}

impl<'a> WhatIf<'a> {
    /// These helmets, altered. Sizes that are absent are so in models with fewer pads, too; models that come in are there
    /// in all their sizes.
    #[must_use]
    pub fn new(
        range: Vec<Column<'a>>,
        alterations: &'a [Alteration],
        absent: &[(Id, Id)],
        catalogue: &'a Catalogue,
    ) -> Self {
        let before = (0..range.len()).collect_vec();
        let mut columns = range;
        let mut after = before.clone();
        let mut alone = Vec::new();
        for alteration in alterations {
            let mut altered = before.clone();
            for set in [&mut after, &mut altered] {
                set.retain(|column| Some(*column) != alteration.out);
                set.extend(alteration.put.as_ref().map(|_| columns.len()));
            }
            alone.push(altered.into_iter().collect());
            columns.extend(alteration.put.as_ref().map(|model| match alteration.out {
                None => Column::of(model, catalogue),
                Some(_) => Column { model, candidates: Candidate::but_for(absent, &[model], catalogue) },
            }));
        }
        Self {
            shelf: Shelf::new(columns, catalogue.shop.fit),
            before: before.into_iter().collect(),
            after: after.into_iter().collect(),
            alone,
        }
    }

    /// What changes for heads that were counted on the shelf.
    #[must_use]
    pub fn changed(&self, counted: &Counted, words: ShapeWords, seed: u64) -> Changed {
        let cases = std::iter::once(&self.after).chain(&self.alone).cartesian_product([Pads::Standard, Pads::OnOffer]);
        let spreads = spreads(&self.shelf, &counted.kept, seed, |tally| {
            cases.clone().map(|(after, pads)| self.change(tally, after, pads).quote().value).collect()
        });
        let effects =
            cases.zip(spreads).map(|((after, pads), spread)| self.effect(&counted.tally, after, pads, spread));
        let pairs = effects.tuples().map(|(standard, on_offer)| Effects { standard, on_offer });
        let mut all = pairs.collect_vec();
        let together = all.remove(0);
        let fits = self.fits(&counted.kept);
        let labels = Labels::of(&self.shelf);
        let who = |wanted: (bool, bool)| labels.groups(&counted.kept, words, |head| fits[head] == wanted);
        Changed { together, alone: all, won: who((false, true)), lost: who((true, false)) }
    }

    /// The map of the range as it is and the one of the range as it would be, of the heads that were kept.
    #[must_use]
    pub fn maps(&self, counted: &Counted) -> [Map; 2] {
        let heads = &counted.kept;
        let answers = Answers::of(&self.shelf, &taken(heads, self.shelf.rules.outline), None);
        [&self.before, &self.after].map(|set| {
            let count = |columns: Columns<'_>| columns.iter().filter(|column| set.columns().has(*column)).count();
            let mut map = Map::default();
            map.add(heads, answers.patterns().map(|pattern| (count(pattern.on_offer), count(pattern.standard))));
            map
        })
    }

    fn change(&self, tally: &Tally, after: &ColumnSet, pads: Pads) -> Change {
        let is_served = |set: &ColumnSet, pattern: Pattern<'_>| pattern.with(pads).has_any(set.columns());
        tally.change(|pattern| is_served(&self.before, pattern), |pattern| is_served(after, pattern))
    }

    fn effect(&self, tally: &Tally, after: &ColumnSet, pads: Pads, spread: Spread) -> Effect {
        let served = |set: &ColumnSet| tally.share(|pattern| pattern.with(pads).has_any(set.columns()));
        let change = self.change(tally, after, pads);
        Effect { before: served(&self.before), after: served(after), change, spread }
    }

    /// For each head whether it is served before and after, with the pads on offer.
    fn fits(&self, heads: &Particles) -> Vec<(bool, bool)> {
        let answers = Answers::of(&self.shelf, &taken(heads, self.shelf.rules.outline), None);
        let is_served = |pattern: Pattern<'_>, set: &ColumnSet| pattern.on_offer.has_any(set.columns());
        answers.patterns().map(|pattern| (is_served(pattern, &self.before), is_served(pattern, &self.after))).collect()
    }
}
