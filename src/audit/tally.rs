//! What customers take in all, batch by batch.

use super::customers::{Batches, Group};
use super::follow::Watch;
use crate::fit::Quote;
use crate::plan::{Belief, Reports, Step};

/// What customers take, each figure with its sampling error.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Takes {
    /// Helmets put on.
    pub tries: Quote,
    /// Minutes of all tries.
    pub minutes: Quote,
    /// Share of the customers who leave without a helmet.
    pub no_fit: Quote,
    /// Minutes in all: those of the tries, and what going without costs for whoever leaves so.
    pub in_all: Quote,
}

/// Sums by batch, over the first batches or all of them.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Tally {
    tries: Vec<f64>,
    minutes: Vec<f64>,
    no_fit: Vec<f64>,
}

/// A tally with the group whose customers are being watched.
pub(super) struct Counting<'t> {
    pub(super) tally: &'t mut Tally,
    pub(super) group: &'t Group,
}

impl Tally {
    pub(super) fn of(batches: usize) -> Self {
        let none = vec![0.0; batches];
        Self { tries: none.clone(), minutes: none.clone(), no_fit: none }
    }

    pub(super) fn takes(&self, batches: &Batches, go_without: f64) -> Takes {
        let quote = |of: &dyn Fn(usize) -> f64| self.quote(batches, of);
        Takes {
            tries: quote(&|batch| self.tries[batch]),
            minutes: quote(&|batch| self.minutes[batch]),
            no_fit: quote(&|batch| self.no_fit[batch]),
            in_all: quote(&|batch| self.in_all(batch, go_without)),
        }
    }

    /// By how many minutes in all another way is quicker, head by head.
    pub(super) fn saved_by(&self, other: &Self, batches: &Batches, go_without: f64) -> Quote {
        self.quote(batches, &|batch| self.in_all(batch, go_without) - other.in_all(batch, go_without))
    }

    fn in_all(&self, batch: usize, go_without: f64) -> f64 {
        self.minutes[batch] + go_without * self.no_fit[batch]
    }

    fn quote(&self, batches: &Batches, sum: &dyn Fn(usize) -> f64) -> Quote {
        Quote::ratio((0..self.tries.len()).map(|batch| (sum(batch), batches.share(batch))))
    }
}

impl Watch for Counting<'_> {
    fn tries(&mut self, crowd: &Belief, candidate: usize) {
        let minutes = &self.group.crowd.minutes[candidate];
        for (row, weight) in crowd.rows.iter().zip(&crowd.weight) {
            let batch = self.group.batch[*row as usize];
            self.tally.tries[batch] += weight;
            self.tally.minutes[batch] += weight * minutes[*row as usize];
        }
    }

    fn leaves(&mut self, crowd: &Belief) {
        for (row, weight) in crowd.rows.iter().zip(&crowd.weight) {
            self.tally.no_fit[self.group.batch[*row as usize]] += weight;
        }
    }
}

/// Takes customers through a plan. Candidates of the plan stand where `place` says.
pub(super) fn walk(plan: Option<&Step>, crowd: &Belief, group: &Group, place: &[usize], watch: &mut impl Watch) {
    let Some(step) = plan else { return watch.leaves(crowd) };
    let candidate = place[step.candidate];
    watch.tries(crowd, candidate);
    let split = crowd.split(&group.crowd, candidate);
    let mut heard = 0;
    for (reports, next) in &step.branches {
        heard |= reports.0;
        walk(next.as_ref(), &split.after(&group.crowd, *reports), group, place, watch);
    }
    // Reports that none of the heads which chose the plan would give: nothing is planned for them.
    let all = (1 << group.crowd.reasons) - 1;
    if all & !heard != 0 {
        watch.leaves(&split.after(&group.crowd, Reports(all & !heard)));
    }
}
