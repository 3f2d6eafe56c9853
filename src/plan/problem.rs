//! The planning problem without helmets and heads: states, things to try, what each outcome tells.

use itertools::Itertools;
use std::collections::HashMap;

/// Up to so many candidates, rows with equal outcomes are common enough to be worth merging.
const MERGED_UP_TO: usize = 16;

/// Reasons that fit into [`Reports`].
pub(super) const MOST_REASONS: usize = 32;

/// States of the world (rows) and things to try (candidates). A row is what a head is to the plan: its outcome
/// with every candidate.
#[derive(Debug, Clone, PartialEq)]
pub struct Problem {
    /// Weight of each row; they add up to 1.
    pub weight: Vec<f64>,
    /// By candidate and row: 0 a fit, else the number of the true reason, 1 to `reasons`.
    pub outcome: Vec<Vec<u8>>,
    /// By candidate and row: minutes of the try.
    pub minutes: Vec<Vec<f64>>,
    /// How many reasons there are, at most 32.
    pub reasons: u8,
    /// How plans are made and what counts.
    pub terms: Terms,
}

/// How plans are made and what counts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Terms {
    /// Probability that the reported reason is another than the true one, each other one alike.
    pub misreport: f64,
    /// What going without costs, minutes.
    pub go_without: f64,
    /// Most tries on a path.
    pub tries: usize,
    /// Most minutes on a path, as expected when each try begins.
    pub minutes: Option<f64>,
    /// Which reasons share one branch.
    pub fold: Fold,
}

/// Reasons that share one branch, because they are too improbable for one of their own.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fold {
    /// Less probable than this, from the start of the plan on.
    pub below: f64,
    /// A smaller share than this of the step's failures.
    pub share: f64,
}

impl Fold {
    /// Every reason has its branch.
    pub const NONE: Self = Self { below: 0.0, share: 0.0 };

    /// No reason has: the plan hears only that a try failed.
    pub const ALL: Self = Self { below: f64::INFINITY, share: 0.0 };
}

/// Some reasons, as bits: reason 1 is bit 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Reports(pub u32);

impl Reports {
    /// One reason by its number (from 1).
    #[must_use]
    pub fn one(number: u8) -> Self {
        Self(1 << (number - 1))
    }

    /// All of so many reasons.
    #[must_use]
    pub fn all(reasons: u8) -> Self {
        Self((1..=reasons).fold(0, |bits, number| bits | Self::one(number).0))
    }

    /// Whether a reason is among them.
    #[must_use]
    pub fn has(self, number: u8) -> bool {
        number > 0 && self.0 >> (number - 1) & 1 == 1
    }

    /// The reason, if it is a single one.
    #[must_use]
    pub fn single(self) -> Option<u8> {
        (self.0.count_ones() == 1).then(|| u8::try_from(self.0.trailing_zeros() + 1).unwrap_or(0))
    }

    /// The numbers of all of them.
    pub fn numbers(self) -> impl Iterator<Item = u8> {
        (1..=32).filter(move |number| self.has(*number))
    }
}

impl Problem {
    /// How many candidates.
    #[must_use]
    pub fn candidates(&self) -> usize {
        self.outcome.len()
    }

    /// Probability that one of `reports` is reported where `truth` is the true reason.
    #[must_use]
    pub fn likelihood(&self, reports: Reports, truth: u8) -> f64 {
        let own = if reports.has(truth) { self.own() } else { 0.0 };
        f64::from(reports.0.count_ones()) * self.stray() + own
    }

    /// Probability of each single report, whatever the true reason.
    #[must_use]
    pub fn stray(&self) -> f64 {
        if self.reasons > 1 { self.terms.misreport / f64::from(self.reasons - 1) } else { 0.0 }
    }

    /// What is added to it for the report that is true.
    #[must_use]
    pub fn own(&self) -> f64 {
        if self.reasons > 1 { 1.0 - self.terms.misreport - self.stray() } else { 1.0 }
    }

    /// Whether enough rows are alike: with many candidates hardly two are.
    pub(super) fn is_worth_merging(&self) -> bool {
        self.candidates() <= MERGED_UP_TO
    }

    /// What sums over failing rows (all of them, and then by true reason) come to after hearing one of these reports.
    pub(super) fn mixed(&self, sums: &[f64], reports: Reports) -> f64 {
        let own: f64 = reports.numbers().filter_map(|number| sums.get(usize::from(number))).sum();
        f64::from(reports.0.count_ones()) * self.stray() * sums[0] + self.own() * own
    }

    /// The same problem with rows of equal outcomes made one: their weights added, their minutes averaged.
    /// No plan can tell such rows apart, so every plan costs the same on both.
    #[must_use]
    pub fn merged(&self) -> Self {
        let mut groups: HashMap<Vec<u8>, usize> = HashMap::new();
        let mut merged = Self {
            weight: Vec::new(),
            outcome: vec![Vec::new(); self.candidates()],
            minutes: vec![Vec::new(); self.candidates()],
            ..self.clone_terms()
        };
        for row in 0..self.weight.len() {
            let weight = self.weight[row];
            if weight <= 0.0 {
                continue;
            }
            let key = self.outcome.iter().map(|outcome| outcome[row]).collect_vec();
            let next = merged.weight.len();
            let at = *groups.entry(key).or_insert(next);
            if at == next {
                merged.weight.push(0.0);
                for (k, outcome) in self.outcome.iter().enumerate() {
                    merged.outcome[k].push(outcome[row]);
                    merged.minutes[k].push(0.0);
                }
            }
            merged.weight[at] += weight;
            for (k, minutes) in self.minutes.iter().enumerate() {
                merged.minutes[k][at] += weight * minutes[row];
            }
        }
        for minutes in &mut merged.minutes {
            for (sum, weight) in minutes.iter_mut().zip(&merged.weight) {
                *sum /= weight;
            }
        }
        merged
    }

    fn clone_terms(&self) -> Self {
        Self { weight: Vec::new(), outcome: Vec::new(), minutes: Vec::new(), reasons: self.reasons, terms: self.terms }
    }
}
