//! Readings, and how probable they are for a population, its shift and the errors of measuring.

use super::customers::Visitor;
use super::normals::{Matrix, inverse, times};
use crate::head::{Measure, Population};
use crate::profile::{Measurer, Shop, Tool};
use itertools::Itertools;
use std::collections::BTreeMap;

/// No more readings of one head are looked at; four measures taken four times.
const MOST_READINGS: usize = 16;

/// No reading is better than this, mm: what is written down as exact was rounded, too.
const LEAST_SD: f64 = 1e-3;

/// The error of a reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Error {
    /// That of a line under `measuring`: its place there.
    Line(usize),
    /// One of its own, as the bits of mm.
    Own(u64),
}

/// Heads of which the same was measured in the same way.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Likes {
    pub(super) measures: Vec<usize>,
    pub(super) errors: Vec<Error>,
    /// The values of each head, mm.
    pub(super) values: Vec<Vec<f64>>,
}

/// What readings depend on.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Guess {
    /// How far the shop's customers are from the population, mm: C, L, B, W.
    pub(super) shift: [f64; 4],
    /// How much more they differ among each other: a factor on every standard deviation.
    pub(super) spread: f64,
    /// Standard deviations of the lines under `measuring`, mm.
    pub(super) sds: Vec<f64>,
}

/// How probable readings of one kind are for one component of the population, but for a factor of 2π each.
struct Law {
    log_share: f64,
    mean: Vec<f64>,
    precision: Matrix,
    log_determinant: f64,
}

/// The log density of readings by component, and each component's score: the slope with the shift.
pub(super) struct Told {
    pub(super) logs: Vec<f64>,
    pub(super) scores: Vec<[f64; 4]>,
    /// By component, how sharply the density bends with the shift.
    pub(super) bends: Vec<[[f64; 4]; 4]>,
}

/// What was measured of these visitors, put together by kind.
pub(super) fn readings(shop: &Shop, visitors: &[&Visitor<'_>]) -> Vec<Likes> {
    let mut kinds = BTreeMap::<_, Vec<Vec<f64>>>::new();
    for visitor in visitors {
        let taken = visitor.last().head.readings.iter().take(MOST_READINGS);
        let line = |by: Measurer, with: Tool, sd: f64| {
            let is_line = |line: &(Measurer, Tool, f64)| (line.0, line.1) == (by, with) && (line.2 - sd).abs() < 1e-9;
            shop.measuring.iter().position(is_line).map_or(Error::Own(sd.to_bits()), Error::Line)
        };
        let taken = taken.map(|read| (read.measure.index(), line(read.by, read.with, read.sd), read.value));
        let taken = taken.sorted_by(|a, b| (a.0, a.1).cmp(&(b.0, b.1)).then(a.2.total_cmp(&b.2))).collect_vec();
        if taken.is_empty() {
            continue;
        }
        let (measures, errors): (Vec<_>, Vec<_>) = taken.iter().map(|(measure, error, _)| (*measure, *error)).unzip();
        kinds.entry((measures, errors)).or_default().push(taken.iter().map(|taken| taken.2).collect());
    }
    kinds.into_iter().map(|((measures, errors), values)| Likes { measures, errors, values }).collect()
}

impl Likes {
    /// How many readings of all these heads have the error of this line.
    pub(super) fn with(&self, line: usize) -> usize {
        self.errors.iter().filter(|error| **error == Error::Line(line)).count() * self.values.len()
    }

    /// The log probability of all of them.
    pub(super) fn log_probability(&self, population: &Population, guess: &Guess) -> f64 {
        let laws = self.laws(population, guess);
        self.values.iter().map(|values| super::belief::log_sum(laws.iter().map(|law| law.log_density(values)))).sum()
    }

    /// What each head says of the shift.
    pub(super) fn told<'a>(&'a self, population: &Population, guess: &Guess) -> impl Iterator<Item = Told> + 'a {
        let laws = self.laws(population, guess);
        let bends = laws.iter().map(|law| self.spread_out(&law.precision)).collect_vec();
        self.values.iter().map(move |values| Told {
            logs: laws.iter().map(|law| law.log_density(values)).collect(),
            scores: laws.iter().map(|law| self.score(law, values)).collect(),
            bends: bends.clone(),
        })
    }

    fn laws(&self, population: &Population, guess: &Guess) -> Vec<Law> {
        let law = |component: &crate::head::Component| {
            let heads = component.heads;
            let entry = |i: usize, j: usize| {
                let own = heads.covariance[self.measures[i]][self.measures[j]] * guess.spread.powi(2);
                if i == j { own + self.errors[i].sd(guess).max(LEAST_SD).powi(2) } else { own }
            };
            let n = self.measures.len();
            let covariance = (0..n).map(|i| (0..n).map(|j| entry(i, j)).collect()).collect();
            // The errors on the diagonal keep it positive definite.
            let (precision, log_determinant) = inverse(&covariance)?;
            let mean = self.measures.iter().map(|k| heads.mean[*k] + guess.shift[*k]).collect();
            Some(Law { log_share: component.share.ln(), mean, precision, log_determinant })
        };
        population.components().iter().filter_map(law).collect()
    }

    /// A matrix over the readings as one over the measures.
    fn spread_out(&self, matrix: &Matrix) -> [[f64; 4]; 4] {
        let mut out = [[0.0; 4]; 4];
        for (i, row) in matrix.iter().enumerate() {
            for (j, value) in row.iter().enumerate() {
                out[self.measures[i]][self.measures[j]] += value;
            }
        }
        out
    }

    fn score(&self, law: &Law, values: &[f64]) -> [f64; 4] {
        let mut score = [0.0; 4];
        for (k, slope) in self.measures.iter().zip(times(&law.precision, &law.residuals(values))) {
            score[*k] += slope;
        }
        score
    }
}

impl Error {
    fn sd(self, guess: &Guess) -> f64 {
        match self {
            Self::Line(line) => guess.sds.get(line).copied().unwrap_or_default(),
            Self::Own(bits) => f64::from_bits(bits),
        }
    }
}

impl Law {
    fn residuals(&self, values: &[f64]) -> Vec<f64> {
        values.iter().zip(&self.mean).map(|(value, mean)| value - mean).collect()
    }

    fn log_density(&self, values: &[f64]) -> f64 {
        // Asked for a million times: without a vector of its own.
        let residual = |at: usize| values[at] - self.mean[at];
        let mut distance = 0.0;
        for (i, row) in self.precision.iter().enumerate() {
            distance += residual(i) * row.iter().enumerate().map(|(j, entry)| entry * residual(j)).sum::<f64>();
        }
        self.log_share - 0.5 * (distance + self.log_determinant)
    }
}

/// The covariance of all heads of a population, mm².
pub(super) fn covariance(population: &Population) -> Matrix {
    let parts = population.components();
    let mean = |k: usize| parts.iter().map(|part| part.share * part.heads.mean[k]).sum::<f64>();
    let means = Measure::ALL.map(|measure| mean(measure.index()));
    let entry = |i: usize, j: usize| {
        let of_part = |part: &crate::head::Component| {
            let away = (part.heads.mean[i] - means[i]) * (part.heads.mean[j] - means[j]);
            part.share * (part.heads.covariance[i][j] + away)
        };
        parts.iter().map(of_part).sum()
    };
    (0..4).map(|i| (0..4).map(|j| entry(i, j)).collect()).collect()
}
