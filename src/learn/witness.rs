//! A customer as a witness: heads that may be his, and what was heard of each shell that was on them.

use super::Belief;
use super::customers::Visitor;
use super::replay::Reader;
use super::testimony::{Chances, Departure, HEADS, Heads, Trial, trials};
use crate::catalogue::Catalogue;
use crate::fit::{Candidate, HeadSet};
use crate::head::Outline;
use std::collections::BTreeMap;

/// Heads of a visitor, and his reports by shell.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Witness {
    pub(super) heads: Heads,
    pub(super) told: Vec<Told>,
}

/// What was heard of one shell.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Told {
    /// Places of model and shell.
    pub(super) model: usize,
    pub(super) shell: usize,
    /// At least one.
    pub(super) trials: Vec<Trial>,
    /// Tries that they belong to.
    pub(super) tries: usize,
}

/// How far the profile of a shell may be off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Doubt {
    pub(super) index: Belief,
    pub(super) centre: Belief,
}

/// The sizes that can be tried, by model and size.
pub(super) struct Shelf<'a> {
    candidates: Vec<Candidate<'a>>,
    catalogue: &'a Catalogue,
}

/// Heads that are drawn at first. Some reports are true of one head in a hundred; of so many enough are left.
const DRAWN: usize = 4 * HEADS;

impl<'a> Shelf<'a> {
    pub(super) fn of(catalogue: &'a Catalogue) -> Self {
        Self { candidates: Candidate::of_models(catalogue.models(), catalogue), catalogue }
    }

    /// How far the profile of a shell may be off, as it says itself.
    pub(super) fn doubt(&self, model: usize, shell: usize) -> Doubt {
        let id = &self.catalogue.models()[model].id;
        let known = self.candidates.iter().find(|known| known.model.id == *id && known.shell_index == shell);
        let sure = |sd| Belief { mean: 0.0, sd };
        let (index, centre) = known.map_or((0.0, 0.0), |known| (known.error.shape_index, known.error.centre));
        Doubt { index: sure(index), centre: sure(centre) }
    }

    /// By model and shell, what a visitor's records say.
    fn told(&self, visitor: &Visitor<'_>) -> Vec<Told> {
        let mut told: BTreeMap<(usize, usize), (Vec<Trial>, usize)> = BTreeMap::new();
        for record in &visitor.records {
            let model = self.catalogue.models().binary_search_by(|model| model.id.cmp(&record.model));
            let is_it = |known: &&Candidate<'_>| known.model.id == record.model && known.size.label == record.size;
            if let (Ok(model), Some(candidate)) = (model, self.candidates.iter().find(is_it)) {
                let trials = trials(candidate, record, &self.catalogue.shop.fit);
                if !trials.is_empty() {
                    let (all, tries) = told.entry((model, candidate.shell_index)).or_default();
                    all.extend(trials);
                    *tries += 1;
                }
            }
        }
        let told = told.into_iter();
        told.map(|((model, shell), (trials, tries))| Told { model, shell, trials, tries }).collect()
    }

    /// Calls a visitor. His heads are drawn from what was measured; those that may explain his reports, whatever is off
    /// about the profiles, are looked at more closely and count less each (importance sampling).
    pub(super) fn witness(&self, reader: &Reader<'_>, visitor: &Visitor<'_>) -> Witness {
        let shop = &self.catalogue.shop;
        let told = self.told(visitor);
        let customer = reader.customer(&visitor.last().head);
        let drawn = HeadSet::draw(reader.now, &customer, DRAWN, visitor.scramble());
        let heads = Heads::of(&drawn.heads, shop.fit.outline);
        let chances = Chances::of(shop.misreport);
        let mut explains = vec![1.0; DRAWN];
        for told in &told {
            let own = self.blurred(told, &heads, (chances, shop.fit.outline));
            explains.iter_mut().zip(&own).for_each(|(product, own)| *product *= own);
        }
        Witness { heads: heads.closely(&explains), told }
    }

    /// By head how probable the reports are, over some of the ways in which the profile may be off.
    fn blurred(&self, told: &Told, heads: &Heads, with: (Chances, Outline)) -> Vec<f32> {
        const SDS: [(f64, f64); 7] =
            [(0.0, 0.0), (1.5, 0.0), (-1.5, 0.0), (3.0, 0.0), (-3.0, 0.0), (0.0, 1.5), (0.0, -1.5)];
        let doubt = self.doubt(told.model, told.shell);
        let mut sums = vec![0.0; DRAWN];
        let mut chance = vec![0.0; DRAWN];
        for (index, centre) in SDS.map(|(index, centre)| (index * doubt.index.sd, centre * doubt.centre.sd)) {
            heads.probabilities(&told.trials, Departure { index, centre }, with, &mut chance);
            sums.iter_mut().zip(&chance).for_each(|(sum, chance)| *sum += chance);
        }
        sums
    }
}
