//! Where to go with the heads for which no pads help: the shop's rules, and what fits most of them.

use super::people::People;
use super::tries::Try;
use crate::fallback::{allows_size, is_hinted};
use crate::fit::Quote;
use crate::profile::{Edge, Model, Size, SizeHint};
use crate::range::{ColumnSet, share};
use itertools::Itertools;
use std::ops::Range;

/// A rule of the shop, and how many heads it helps.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShopsNext<'a> {
    /// Its place in the file.
    pub rule: usize,
    /// The rule.
    pub edge: &'a Edge,
    /// Its target; `None` where that is none of the models that were asked for.
    pub to: Option<&'a Model>,
    /// The share of the heads that fit it, in the size of the rule or in any size where the rule names none; `None` where there
    /// are no such heads to ask, or no target.
    pub fits: Option<Quote>,
}

/// The model and size that fit most heads.
#[derive(Debug, Clone, PartialEq)]
pub struct Next<'a> {
    /// The model; it may be the same one in another size.
    pub to: &'a Model,
    /// Which size: the same label, one up, one down.
    pub size: SizeHint,
    /// The share of the heads that fit it. It was chosen on other heads.
    pub fits: Quote,
}

/// The heads with whom one complaint about one model stays. Even numbers choose, odd numbers are quoted.
pub(super) struct Stayed<'s, 'a> {
    people: &'s People<'a>,
    /// Where the sizes of the model stand.
    own: Range<usize>,
    tries: Vec<&'s Try<'s>>,
}

impl<'s, 'a> Stayed<'s, 'a> {
    /// Of the model at this place of the shelf: the heads with whom it stays.
    pub(super) fn of(people: &'s People<'a>, model: usize, tries: Vec<&'s Try<'s>>) -> Self {
        Self { people, own: people.sizes_of(model), tries }
    }

    /// A rule of the shop on the heads that are quoted.
    pub(super) fn by_rule(&self, (rule, edge): (usize, &'a Edge)) -> ShopsNext<'a> {
        let people = self.people;
        let target = people.models().find(|model| people.model(*model).id == edge.to);
        let fits = target.and_then(|target| {
            let to = people.model(target);
            let allowed = self.failed().map(|failed| -> ColumnSet {
                people.sizes_of(target).filter(|size| allows_size(edge, failed, to, people.size(*size))).collect()
            });
            let allowed = allowed.collect_vec();
            let quoted = self.tries.iter().filter(|tried| is_odd(tried)).collect_vec();
            let fit = quoted.iter().filter(|tried| tried.fits.on_offer.has_any(allowed[tried.size].columns())).count();
            (!quoted.is_empty()).then(|| share(fit as u64, quoted.len() as u64))
        });
        ShopsNext { rule, edge, to: target.map(|target| people.model(target)), fits }
    }

    /// The best of all models in the same label, one up or one down; of equal ones the first.
    pub(super) fn best(&self) -> Option<Next<'a>> {
        let counts = self.counts();
        let quoted = self.tries.iter().filter(|tried| is_odd(tried)).count() as u64;
        let mut best: Option<(usize, SizeHint, [u64; 2])> = None;
        for target in self.people.models() {
            for size in [SizeHint::Same, SizeHint::Up, SizeHint::Down] {
                let fit = self.fit(&counts, target, &size);
                if fit[0] > best.as_ref().map_or(0, |(.., known)| known[0]) {
                    best = Some((target, size, fit));
                }
            }
        }
        let (target, size, fit) = best.filter(|_| quoted > 0)?;
        Some(Next { to: self.people.model(target), size, fits: share(fit[1], quoted) })
    }

    /// By size that failed and size of any model: how many heads it fits, of those who choose and of those who are quoted.
    fn counts(&self) -> Vec<Vec<[u64; 2]>> {
        let mut counts = vec![vec![[0; 2]; self.people.sizes.columns.len()]; self.own.len()];
        for tried in &self.tries {
            for size in tried.fits.on_offer.iter() {
                counts[tried.size][size][usize::from(is_odd(tried))] += 1;
            }
        }
        counts
    }

    /// How many heads fit a model in the size that is meant.
    fn fit(&self, counts: &[Vec<[u64; 2]>], target: usize, hint: &SizeHint) -> [u64; 2] {
        let (people, to) = (self.people, self.people.model(target));
        let meant = |failed| people.sizes_of(target).find(|size| is_hinted(hint, failed, to, people.size(*size)));
        let fit = self.failed().zip(counts).filter_map(|(failed, counts)| meant(failed).map(|size| counts[size]));
        fit.fold([0; 2], |sum, fit| [sum[0] + fit[0], sum[1] + fit[1]])
    }

    /// The sizes of the model itself.
    fn failed(&self) -> impl Iterator<Item = &'a Size> + '_ {
        self.own.clone().map(|size| self.people.size(size))
    }
}

fn is_odd(tried: &Try<'_>) -> bool {
    tried.number % 2 == 1
}
