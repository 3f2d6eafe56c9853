//! What a try costs each row at least, laid out so that sums over many rows run fast.

use crate::plan::belief::{Belief, Split};
use crate::plan::problem::{MOST_REASONS, Problem, Reports};

/// Columns are padded to a multiple of this: the kernel takes them in such blocks.
const BLOCK: usize = 4;

/// Rows that are written together.
const ROWS: usize = 16;

/// By row and candidate: minutes of the try, and where it fails what the row costs from then on.
pub(super) struct Values {
    candidates: usize,
    stride: usize,
    /// Where more tries can follow: the row then knows itself, and goes to its cheapest fit or goes without.
    more: Vec<f64>,
    /// Where none can: it goes without. These are the costs themselves, no bounds.
    last: Vec<f64>,
}

/// What each candidate costs at least after a try.
#[derive(Default)]
pub(super) struct Sums {
    candidates: usize,
    stride: usize,
    /// By true reason, as if nobody erred.
    by_reason: Vec<f64>,
}

impl Values {
    pub(super) fn of(problem: &Problem) -> Self {
        let least = least_cost(problem);
        let stride = problem.candidates().next_multiple_of(BLOCK);
        let (mut more, mut last) = (vec![0.0; least.len() * stride], vec![0.0; least.len() * stride]);
        // A few rows at a time, so that what is written stays in the cache while candidate after candidate fills it.
        for start in (0..least.len()).step_by(ROWS) {
            let rows = start..least.len().min(start + ROWS);
            for (candidate, (outcome, minutes)) in problem.outcome.iter().zip(&problem.minutes).enumerate() {
                let known = outcome[rows.clone()].iter().zip(&minutes[rows.clone()]).zip(&least[rows.clone()]);
                let cells = (start * stride + candidate..).step_by(stride);
                for (at, ((outcome, minutes), least)) in cells.zip(known) {
                    let fails = *outcome != 0;
                    more[at] = minutes + if fails { *least } else { 0.0 };
                    last[at] = minutes + if fails { problem.terms.go_without } else { 0.0 };
                }
            }
        }
        Self { candidates: problem.candidates(), stride, more, last }
    }

    /// What each candidate costs at least on a belief from which so many tries are left.
    pub(super) fn on(&self, belief: &Belief, tries: usize) -> Vec<f64> {
        let mut sums = belief.sums(self.table(tries), self.stride);
        sums.truncate(self.candidates);
        sums
    }

    /// What each candidate costs at least after a try, from which on so many tries are left.
    pub(super) fn after(&self, split: &Split, tries: usize) -> Sums {
        if tries == 0 {
            return Sums::default();
        }
        let by_reason = split.sums(self.table(tries), self.stride);
        Sums { candidates: self.candidates, stride: self.stride, by_reason }
    }

    /// What trying a candidate costs after a try, with nothing to follow: by true reason, and first their sum.
    pub(super) fn one_more(&self, split: &Split, candidate: usize) -> [f64; MOST_REASONS + 1] {
        split.sums_by(|row| self.last[row as usize * self.stride + candidate])
    }

    fn table(&self, tries: usize) -> &[f64] {
        if tries > 1 { &self.more } else { &self.last }
    }
}

impl Sums {
    /// What each candidate costs at least once one of these reports was heard.
    pub(super) fn heard(&self, problem: &Problem, reports: Reports) -> Vec<f64> {
        let (stray, own) = (problem.stray() * f64::from(reports.0.count_ones()), problem.own());
        let mut heard: Vec<f64> = self.of(problem.reasons).iter().map(|total| stray * total).collect();
        for number in reports.numbers().take_while(|number| *number <= problem.reasons) {
            heard.iter_mut().zip(self.of(number - 1)).for_each(|(heard, sum)| *heard += own * sum);
        }
        heard
    }

    /// The least of these costs, and whose it is.
    pub(super) fn least(&self, problem: &Problem, reports: Reports) -> Option<(f64, usize)> {
        let least = |best: Option<(f64, usize)>, (cost, candidate): (f64, usize)| {
            if best.is_some_and(|best| best.0 <= cost) { best } else { Some((cost, candidate)) }
        };
        let Some(number) = reports.single() else {
            return self.heard(problem, reports).into_iter().zip(0..).fold(None, least);
        };
        let (stray, own) = (problem.stray(), problem.own());
        let sums = self.of(problem.reasons).iter().zip(self.of(number - 1));
        sums.map(|(total, sum)| stray * total + own * sum).zip(0..).fold(None, least)
    }

    fn of(&self, block: u8) -> &[f64] {
        self.by_reason.get(usize::from(block) * self.stride..).map_or(&[], |sums| &sums[..self.candidates])
    }
}

/// What each row costs at least, when it knows itself: its cheapest fit, or going without.
fn least_cost(problem: &Problem) -> Vec<f64> {
    let mut least = vec![problem.terms.go_without; problem.weight.len()];
    for (outcome, minutes) in problem.outcome.iter().zip(&problem.minutes) {
        for (row, least) in least.iter_mut().enumerate() {
            if outcome[row] == 0 {
                *least = least.min(minutes[row]);
            }
        }
    }
    least
}
