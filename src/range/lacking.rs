//! Customers that some helmets don't fit, one by one: whoever proposes a helmet looks for it among them.

use super::answers::Answers;
use super::shelf::{Shelf, taken};
use super::tally::{Change, ColumnSet};
use crate::head::Particles;
use itertools::Itertools;

/// A customer whom none of the helmets fits with any pads on offer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Lack {
    /// The room that the head takes: length, breadth, face width.
    pub(super) taken: [f64; 3],
    /// Heads with an even number choose, the others judge.
    pub(super) judges: bool,
    /// Whether no other helmet of the shelf fits, either.
    pub(super) by_all: bool,
}

/// Those customers, and how many customers there are.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Lacking {
    /// In the order of the heads.
    pub(super) heads: Vec<Lack>,
    /// How many heads choose and how many judge, whatever fits them.
    pub(super) of: [u64; 2],
}

impl Lacking {
    /// The heads that no column of these fits, the profiles taken at their word.
    pub(super) fn of(shelf: &Shelf<'_>, heads: &Particles, columns: &[usize]) -> Self {
        let own: ColumnSet = columns.iter().copied().collect();
        let taken = taken(heads, shelf.rules.outline);
        let answers = Answers::of(shelf, &taken, None);
        let lacking = answers.patterns().enumerate().filter_map(|(head, pattern)| {
            let taken = [taken[0][head], taken[1][head], taken[2][head]];
            let lack = Lack { taken, judges: head % 2 == 1, by_all: pattern.on_offer.is_empty() };
            (!pattern.on_offer.has_any(own.columns())).then_some(lack)
        });
        let half = |first: usize| (first..heads.len()).step_by(2).len() as u64;
        Self { heads: lacking.collect_vec(), of: [half(0), half(1)] }
    }

    /// How many of those who judge are so: customers won, of all who judge.
    pub(super) fn judged(&self, is_so: impl Fn(&Lack) -> bool) -> Change {
        let won = self.heads.iter().filter(|lack| lack.judges && is_so(lack)).count();
        Change { won: won as u64, lost: 0, of: self.of[1] }
    }
}

/// The heads with an odd number: those that judge.
pub(super) fn judges(heads: &Particles) -> Particles {
    Particles::of((1..heads.len()).step_by(2).map(|head| heads.head(head)))
}
