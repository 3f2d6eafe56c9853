//! What is still possible at a node of a plan: the rows that have failed every try so far, with their weights.

use super::problem::{Fold, MOST_REASONS, Problem, Reports};

/// Rows with weights that add up to the probability of getting here.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Belief {
    pub(crate) rows: Vec<u32>,
    pub(crate) weight: Vec<f64>,
    pub(crate) mass: f64,
}

/// A try seen from a belief: what it costs, and what fails how.
pub(crate) struct Split {
    /// Expected minutes of the try, times the belief's mass.
    pub(crate) minutes: f64,
    /// Failing rows, sorted by their true reason.
    fails: Belief,
    reasons: usize,
    /// `starts[o]..starts[o + 1]`: the failing rows with true reason `o + 1`.
    starts: [usize; MOST_REASONS + 1],
    /// Mass of the rows that fail with true reason `o`.
    mass: [f64; MOST_REASONS + 1],
}

impl Belief {
    pub(crate) fn whole(problem: &Problem) -> Self {
        Self::all(&problem.weight)
    }

    /// Rows with these weights, all of them.
    pub(crate) fn all(weight: &[f64]) -> Self {
        let rows = (0..u32::try_from(weight.len()).unwrap_or(u32::MAX)).collect();
        Self { rows, weight: weight.to_vec(), mass: weight.iter().sum() }
    }

    /// Σ weight × value over the rows.
    pub(crate) fn sum(&self, values: &[f64]) -> f64 {
        self.rows.iter().zip(&self.weight).map(|(row, weight)| weight * values[*row as usize]).sum()
    }

    /// Σ weight × value over the rows, by column of a table whose rows have so many columns.
    pub(crate) fn sums(&self, table: &[f64], columns: usize) -> Vec<f64> {
        let mut sums = Vec::with_capacity(columns);
        column_sums(&self.rows, &self.weight, table, columns, &mut sums);
        sums
    }

    /// Probability that a candidate fits, given that we are here.
    pub(crate) fn fit_probability(&self, outcome: &[u8]) -> f64 {
        let fits = self.rows.iter().zip(&self.weight).filter(|(row, _)| outcome[**row as usize] == 0);
        if self.mass > 0.0 { fits.map(|(_, weight)| weight).sum::<f64>() / self.mass } else { 0.0 }
    }

    /// The part of it whose rows are wanted.
    pub(crate) fn keep(&self, wanted: impl Fn(usize) -> bool) -> Self {
        let pairs = self.rows.iter().zip(&self.weight).filter(|(row, _)| wanted(**row as usize));
        let (rows, weight): (Vec<u32>, Vec<f64>) = pairs.map(|(row, weight)| (*row, *weight)).unzip();
        let mass = weight.iter().sum();
        Self { rows, weight, mass }
    }

    /// Tries a candidate.
    pub(crate) fn split(&self, problem: &Problem, candidate: usize) -> Split {
        let split = self.tally(problem, candidate);
        self.sorted(split, &problem.outcome[candidate])
    }

    /// What a column of outcomes makes of it, when nobody asks for minutes.
    pub(crate) fn split_by(&self, outcome: &[u8], reasons: u8) -> Split {
        let split = self.counted(outcome, reasons, |_| 0.0);
        self.sorted(split, outcome)
    }

    /// Tries a candidate after which nothing is tried: the same without the rows.
    pub(crate) fn tally(&self, problem: &Problem, candidate: usize) -> Split {
        let minutes = &problem.minutes[candidate];
        self.counted(&problem.outcome[candidate], problem.reasons, |row| minutes[row])
    }

    /// Sorts the rows that fail by their true reason into a split that has counted them.
    fn sorted(&self, mut split: Split, outcome: &[u8]) -> Split {
        let count = split.starts[split.reasons];
        split.fails.rows = vec![0; count];
        split.fails.weight = vec![0.0; count];
        let mut next = split.starts;
        for (row, weight) in self.rows.iter().zip(&self.weight) {
            let truth = usize::from(outcome[*row as usize]);
            if truth > 0 {
                let at = next[truth - 1];
                split.fails.rows[at] = *row;
                split.fails.weight[at] = *weight;
                next[truth - 1] += 1;
            }
        }
        split
    }

    fn counted(&self, outcome: &[u8], reasons: u8, cost: impl Fn(usize) -> f64) -> Split {
        let reasons = usize::from(reasons).min(MOST_REASONS);
        let mut starts = [0; MOST_REASONS + 1];
        let mut mass = [0.0; MOST_REASONS + 1];
        let mut minutes = 0.0;
        for (row, weight) in self.rows.iter().zip(&self.weight) {
            let row = *row as usize;
            minutes += weight * cost(row);
            let truth = usize::from(outcome[row]);
            if truth > 0 {
                starts[truth] += 1;
                mass[truth] += weight;
            }
        }
        for at in 0..reasons {
            starts[at + 1] += starts[at];
        }
        let fails = Self { mass: mass.iter().sum(), ..Self::default() };
        Split { minutes, fails, reasons, starts, mass }
    }
}

impl Split {
    /// How many rows fail.
    pub(crate) fn fails(&self) -> usize {
        self.fails.rows.len()
    }

    /// Drops the rows.
    pub(crate) fn forget(&mut self) {
        self.fails = Belief::default();
    }

    /// Probability of getting here and hearing one of these reports.
    pub(crate) fn probability(&self, problem: &Problem, reports: Reports) -> f64 {
        let own = (0..=problem.reasons).zip(&self.mass).filter(|(truth, _)| reports.has(*truth)).map(|(_, mass)| mass);
        f64::from(reports.0.count_ones()) * problem.stray() * self.fails.mass + problem.own() * own.sum::<f64>()
    }

    /// Σ weight × value over the failing rows, by true reason and column of a table whose rows have so many columns;
    /// behind them the sums over all reasons.
    pub(crate) fn sums(&self, table: &[f64], columns: usize) -> Vec<f64> {
        let mut sums = Vec::with_capacity(columns * (self.reasons + 1));
        for ends in self.starts[..=self.reasons].windows(2) {
            let (rows, weight) = (&self.fails.rows[ends[0]..ends[1]], &self.fails.weight[ends[0]..ends[1]]);
            column_sums(rows, weight, table, columns, &mut sums);
        }
        for column in 0..columns {
            sums.push(sums.iter().skip(column).step_by(columns).take(self.reasons).sum());
        }
        sums
    }

    /// The belief after hearing one of these reports.
    pub(crate) fn after(&self, problem: &Problem, reports: Reports) -> Belief {
        let mut rows = Vec::with_capacity(self.fails());
        let mut weight = Vec::with_capacity(self.fails());
        for (likelihood, failing, before) in self.heard(problem, reports) {
            rows.extend_from_slice(failing);
            weight.extend(before.iter().map(|weight| weight * likelihood));
        }
        Belief { rows, weight, mass: self.probability(problem, reports) }
    }

    /// Σ weight × value over the failing rows: all of them, and then by true reason.
    pub(crate) fn sums_by(&self, value: impl Fn(u32) -> f64) -> [f64; MOST_REASONS + 1] {
        let mut sums = [0.0; MOST_REASONS + 1];
        for (at, ends) in self.starts[..=self.reasons].windows(2).enumerate() {
            let rows = self.fails.rows[ends[0]..ends[1]].iter().zip(&self.fails.weight[ends[0]..ends[1]]);
            sums[at + 1] = rows.map(|(row, weight)| weight * value(*row)).sum();
        }
        sums[0] = sums[1..].iter().sum();
        sums
    }

    /// Σ weight × value over the rows after hearing one of these reports.
    pub(crate) fn sum_after(&self, problem: &Problem, reports: Reports, value: impl Fn(u32) -> f64) -> f64 {
        let sum = |(likelihood, rows, weight): (f64, &[u32], &[f64])| {
            likelihood * rows.iter().zip(weight).map(|(row, weight)| weight * value(*row)).sum::<f64>()
        };
        self.heard(problem, reports).map(sum).sum()
    }

    /// By true reason, where one of these reports can be heard at all: how probably, the rows, their weights before.
    fn heard(&self, problem: &Problem, reports: Reports) -> impl Iterator<Item = (f64, &[u32], &[f64])> {
        let by_truth = (1..=problem.reasons).zip(self.starts.windows(2)).map(move |(truth, ends)| {
            let rows = ends[0]..ends[1];
            (problem.likelihood(reports, truth), &self.fails.rows[rows.clone()], &self.fails.weight[rows])
        });
        by_truth.filter(|(likelihood, ..)| *likelihood > 0.0)
    }

    /// The reports that get branches of their own, the most probable first, and last the improbable ones together,
    /// each with its probability.
    pub(crate) fn branches(&self, problem: &Problem, fold: Fold) -> Vec<(Reports, f64)> {
        let probable = |number| (Reports::one(number), self.probability(problem, Reports::one(number)));
        let mut heard = Vec::with_capacity(self.reasons + 1);
        heard.extend((1..=problem.reasons).map(probable).filter(|(_, probability)| *probability > 1e-12));
        heard.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
        let least = fold.below.max(fold.share * self.fails.mass);
        let named = heard.iter().take_while(|(_, probability)| *probability >= least).count();
        let folded = heard.drain(named..).fold((0, 0.0), |all, (reports, p)| (all.0 | reports.0, all.1 + p));
        if folded.0 != 0 {
            heard.push((Reports(folded.0), folded.1));
        }
        heard
    }
}

/// Σ weight × value by column, added to the end of `sums`: a few columns at a time, so that their sums stay in
/// registers while the rows pass by.
fn column_sums(rows: &[u32], weight: &[f64], table: &[f64], columns: usize, sums: &mut Vec<f64>) {
    let mut at = 0;
    while at < columns {
        match columns - at {
            8.. => at += block_sums::<8>(rows, weight, &table[at..], columns, sums),
            4.. => at += block_sums::<4>(rows, weight, &table[at..], columns, sums),
            _ => at += block_sums::<1>(rows, weight, &table[at..], columns, sums),
        }
    }
}

fn block_sums<const N: usize>(
    rows: &[u32],
    weight: &[f64],
    table: &[f64],
    columns: usize,
    sums: &mut Vec<f64>,
) -> usize {
    let mut block = [0.0; N];
    for (row, weight) in rows.iter().zip(weight) {
        let values = &table[*row as usize * columns..][..N];
        block.iter_mut().zip(values).for_each(|(sum, value)| *sum += weight * value);
    }
    sums.extend(block);
    N
}
