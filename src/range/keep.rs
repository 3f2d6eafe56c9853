//! The smallest range that serves nearly everybody.

mod cover;
mod search;

pub use cover::{Best, Cover};

use super::count::Counted;
use super::room::Pads;
use super::shelf::Shelf;
use super::spread::{Spread, spreads};
use super::tally::{ColumnSet, Columns, Pattern, Tally, real, share};
use crate::fit::Quote;

/// What is wanted of a smaller range.
#[derive(Debug, Clone, PartialEq)]
pub struct FewerWanted {
    /// It serves at least this share of the customers that all models serve.
    pub keep: f64,
    /// Columns that stay, ascending.
    pub always: Vec<usize>,
    /// With which pads a customer counts as served.
    pub pads: Pads,
    /// Steps of the search for each number of models.
    pub steps: u64,
}

/// Steps of the search for each number of models: a second or so at most.
pub const KEEP_STEPS: u64 = 100_000_000;

/// How few models serve how many. Subsets are chosen on one half of the heads; whatever is quoted comes from the other.
#[derive(Debug, Clone)]
pub struct Fewer<'a> {
    /// The best subset of each number of models, ascending up to all.
    pub curve: Vec<Subset>,
    /// Which of them is the smallest that serves the share that is wanted.
    pub smallest: usize,
    /// Whether no smaller one does, on the heads that it was chosen on.
    pub is_smallest: bool,
    /// The columns of the smallest one; a share is that of the customers whom no other of them serves with these pads.
    pub stay: Vec<Worth>,
    /// The other columns; a share is that of the customers whom such a one alone would add.
    pub go: Vec<Worth>,
    /// Where profiles are off: what all models serve, what the smallest subset serves, and the share of the one that the
    /// other is.
    pub spreads: [Spread; 3],
    /// The helmets.
    pub shelf: Shelf<'a>,
}

/// Some of the models.
#[derive(Debug, Clone, PartialEq)]
pub struct Subset {
    /// The columns, ascending.
    pub columns: Vec<usize>,
    /// The share of all customers that they serve with the pads on offer.
    pub on_offer: Quote,
    /// The same with the standard pads.
    pub standard: Quote,
    /// Of those whom all models serve with the pads that are meant, the share that they serve.
    pub of_served: Quote,
    /// Whether they serve as many as all models do, on the heads that chose.
    pub serves_all: bool,
    /// Another subset of this number serves at most so much more of all customers, on the heads that chose. 0 where none
    /// serves more.
    pub at_most_more: f64,
}

/// One column and what it is worth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Worth {
    /// The column.
    pub column: usize,
    /// The share of all customers.
    pub share: Quote,
}

/// Finds the best subsets of the columns of a shelf that these heads were counted on.
#[must_use]
pub fn keep<'a>(shelf: Shelf<'a>, counted: &Counted, wanted: &FewerWanted, seed: u64) -> Fewer<'a> {
    let judges = Judges { tally: &counted.tally, pads: wanted.pads };
    let things =
        counted.tally.halves().map(|(pattern, [chose, _])| (pattern.with(wanted.pads).iter().collect(), chose));
    let mut best = Cover::new(shelf.columns.len(), things).best(&wanted.always, wanted.steps);
    // No model at all is no range.
    best.retain(|best| !best.sets.is_empty());
    let all = best.last().map_or(0, |all| all.covers);
    let enough = enough(wanted.keep, all);
    let smallest = best.iter().position(|best| best.covers >= enough).unwrap_or_default();
    let chosen: ColumnSet = best[smallest].sets.iter().copied().collect();
    let (stay, go) = (0..shelf.columns.len()).partition::<Vec<_>, _>(|column| chosen.columns().has(*column));
    let others = |column: usize| stay.iter().copied().filter(|other| *other != column).collect();
    Fewer {
        curve: best.iter().map(|best| judges.subset(best, all)).collect(),
        smallest,
        is_smallest: best[..smallest].iter().all(|best| best.at_most < enough),
        stay: stay.iter().map(|column| judges.worth(*column, &others(*column))).collect(),
        go: go.iter().map(|column| judges.worth(*column, &chosen)).collect(),
        spreads: worlds(&shelf, counted, &chosen, wanted.pads, seed),
        shelf,
    }
}

/// What all serve, what the chosen ones serve, and the share of the one that the other is.
fn worlds(shelf: &Shelf<'_>, counted: &Counted, chosen: &ColumnSet, pads: Pads, seed: u64) -> [Spread; 3] {
    let figures = |tally: &Tally| {
        let all = tally.share(|pattern| !pattern.with(pads).is_empty()).value;
        let stay = tally.share(|pattern| pattern.with(pads).has_any(chosen.columns())).value;
        vec![all, stay, if all > 0.0 { stay / all } else { 0.0 }]
    };
    spreads(shelf, &counted.kept, seed, figures).try_into().unwrap_or_default()
}

/// The smallest number of heads that is at least a share of so many.
fn enough(share: f64, served: u64) -> u64 {
    // A share of 0.07 is slightly more than it says: a hundred heads would need eight.
    let exact = share * real(served) * (1.0 - f64::EPSILON * 4.0);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a share of a count")]
    let enough = exact.ceil() as u64;
    enough.min(served)
}

/// The half of the heads that had no part in choosing.
struct Judges<'t> {
    tally: &'t Tally,
    pads: Pads,
}

impl Judges<'_> {
    fn count(&self, is_so: impl Fn(Pattern<'_>) -> bool) -> u64 {
        self.tally.halves().filter(|(pattern, _)| is_so(*pattern)).map(|(_, [_, judging])| judging).sum()
    }

    fn share(&self, is_so: impl Fn(Pattern<'_>) -> bool) -> Quote {
        share(self.count(is_so), self.count(|_| true))
    }

    fn subset(&self, best: &Best, all: u64) -> Subset {
        let set = best.sets.iter().copied().collect::<ColumnSet>();
        let served = |pads: Pads| self.count(|pattern| pattern.with(pads).has_any(set.columns()));
        let heads = self.count(|_| true);
        let chose: u64 = self.tally.halves().map(|(_, [chose, _])| chose).sum();
        Subset {
            columns: best.sets.clone(),
            on_offer: share(served(Pads::OnOffer), heads),
            standard: share(served(Pads::Standard), heads),
            of_served: share(served(self.pads), self.count(|pattern| !pattern.with(self.pads).is_empty())),
            serves_all: best.covers == all,
            at_most_more: real(best.at_most - best.covers) / real(chose.max(1)),
        }
    }

    /// Whom a column serves and none of the others.
    fn worth(&self, column: usize, others: &ColumnSet) -> Worth {
        let is_only = |columns: Columns<'_>| columns.has(column) && !columns.has_any(others.columns());
        Worth { column, share: self.share(|pattern| is_only(pattern.with(self.pads))) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case(0.99, 1000, 990)]
    #[case(0.07, 100, 7)]
    #[case(0.991, 1000, 991)]
    #[case(0.5, 3, 2)]
    #[case(1.0, 7, 7)]
    #[case(1.0, 0, 0)]
    fn enough_is_the_share_and_not_a_head_more(#[case] share: f64, #[case] served: u64, #[case] expected: u64) {
        assert_eq!(enough(share, served), expected);
    }
}
