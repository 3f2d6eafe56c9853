//! The grid over shape index and offset, and what a density on it says.

use super::{Hump, Normal, Statement};
use itertools::Itertools;

/// How fine the grid is, and how many heads stand for a customer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fineness {
    /// Of the shape index.
    pub index: Pitch,
    /// Of the offset.
    pub offset: Pitch,
    /// Heads in each of the eight sets that stand for a customer.
    pub heads: usize,
}

/// How fine one axis of the grid is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pitch {
    /// Steps to a standard deviation of the prior, at least.
    pub per_sd: f64,
    /// The widest step, index points or mm.
    pub widest: f64,
    /// How far the grid reaches to both sides, standard deviations of the prior.
    pub reach: f64,
}

/// Points of the grid: every index with every offset, the offsets of one index side by side. Points where the density
/// can't amount to anything are left out.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Grid {
    points: Vec<Point>,
    /// Index values, ascending.
    indices: Vec<f64>,
    index_step: f64,
}

/// One possible helmet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Point {
    /// Shape index.
    pub(super) index: f64,
    /// Offset of the size centres, mm of circumference.
    pub(super) offset: f64,
    /// Log density before any customer, but for a constant: 0 is the most.
    pub(super) log_prior: f64,
    /// The index's place among all index values.
    pub(super) column: usize,
    /// The offset's place among all offsets.
    pub(super) row: usize,
}

/// Weights of the points, adding up to 1.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Density(Vec<f64>);

/// Means and standard deviations of index and offset, and how they go together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Moments {
    pub(super) mean: [f64; 2],
    pub(super) sd: [f64; 2],
    pub(super) correlation: f64,
}

/// No interior is flatter or rounder: here the formulas of the ellipse still hold.
const INDEX_LIMITS: (f64, f64) = (40.0, 160.0);

/// No size is further from its label, mm.
const OFFSET_LIMITS: (f64, f64) = (-250.0, 250.0);

impl Default for Fineness {
    /// The figures of a sketch hold to the digits shown: half the step moves them by less than a tenth of the last.
    fn default() -> Self {
        Self {
            index: Pitch { per_sd: 12.0, widest: 0.1, reach: 8.0 },
            offset: Pitch { per_sd: 6.0, widest: 0.5, reach: 6.0 },
            heads: 512,
        }
    }
}

impl Fineness {
    /// The same with half the steps.
    #[must_use]
    pub fn halved(self) -> Self {
        let half = |pitch: Pitch| Pitch { per_sd: 2.0 * pitch.per_sd, widest: pitch.widest / 2.0, ..pitch };
        Self { index: half(self.index), offset: half(self.offset), ..self }
    }
}

impl Grid {
    /// The statements about the shape and the offset's prior on a grid around them.
    pub(super) fn around(statements: &[Statement<'_>], prior: Normal, offset_sd: f64, fineness: Fineness) -> Self {
        let (indices, index_step) = lattice(prior, fineness.index, INDEX_LIMITS);
        let (offsets, _) = lattice(Normal { mean: 0.0, sd: offset_sd }, fineness.offset, OFFSET_LIMITS);
        let square = |distance: f64, sd: f64| if sd > 0.0 { (distance / sd).powi(2) } else { 0.0 };
        let shape = |index: f64| {
            let squares = statements.iter().map(|said| square(index - said.index.mean, said.index.sd));
            -0.5 * squares.sum::<f64>()
        };
        let most = shape(prior.mean);
        let pairs = indices.iter().enumerate().cartesian_product(offsets.iter().enumerate());
        let points = pairs.map(|((column, index), (row, offset))| Point {
            index: *index,
            offset: *offset,
            log_prior: shape(*index) - most - 0.5 * square(*offset, offset_sd),
            column,
            row,
        });
        Self { points: points.collect(), indices, index_step }
    }

    /// The same with some of the points.
    pub(super) fn only(&self, is_wanted: impl Fn(&Point) -> bool) -> Self {
        let points = self.points.iter().copied().filter(|point| is_wanted(point)).collect();
        Self { points, indices: self.indices.clone(), index_step: self.index_step }
    }

    pub(super) fn points(&self) -> &[Point] {
        &self.points
    }

    /// The index below which so much of its density lies; each value stands for a step around it.
    pub(super) fn quantile(&self, marginal: &[f64], share: f64) -> f64 {
        let mut below = 0.0;
        for (value, weight) in self.indices.iter().zip(marginal) {
            if below + weight >= share && *weight > 0.0 {
                return value + self.index_step * ((share - below) / weight - 0.5);
            }
            below += weight;
        }
        self.indices.last().copied().unwrap_or_default()
    }

    /// Two humps of the index's density: at least so much of it on both sides of a valley that is no more than half
    /// as high as the lower hump. The deepest valley counts.
    pub(super) fn humps(&self, marginal: &[f64], least: f64) -> Option<[Hump; 2]> {
        let highest = |part: &[f64]| part.iter().copied().fold(0.0, f64::max);
        let depth = |at: usize| {
            let lower = highest(&marginal[..at]).min(highest(&marginal[at + 1..]));
            if lower > 0.0 { marginal[at] / lower } else { f64::INFINITY }
        };
        let hump = |from: usize, to: usize| {
            let share: f64 = marginal[from..to].iter().sum();
            let mean = marginal[from..to].iter().zip(&self.indices[from..to]).map(|(w, x)| w * x).sum::<f64>();
            Hump { mean: mean / share, share }
        };
        let last = marginal.len().saturating_sub(1);
        let is_worth_it = |at: &usize| {
            let below: f64 = marginal[..*at].iter().sum();
            depth(*at) <= 0.5 && below >= least && 1.0 - below - marginal[*at] >= least
        };
        let valley = (1..last).filter(is_worth_it).min_by(|a, b| depth(*a).total_cmp(&depth(*b)))?;
        Some([hump(0, valley), hump(valley, marginal.len())])
    }
}

/// Evenly spaced values around a normal, and their step; one value where there is nothing to doubt.
fn lattice(around: Normal, pitch: Pitch, (least, most): (f64, f64)) -> (Vec<f64>, f64) {
    if around.sd <= 0.0 {
        return (vec![around.mean], 0.0);
    }
    let step = (around.sd / pitch.per_sd).min(pitch.widest);
    #[expect(clippy::cast_possible_truncation, reason = "some hundred steps")]
    let steps = (pitch.reach * around.sd / step).ceil() as i32;
    let values = (-steps..=steps).map(|k| around.mean + step * f64::from(k));
    (values.filter(|value| (least..=most).contains(value)).collect(), step)
}

impl Density {
    /// From log densities, without overflow.
    pub(super) fn of(logs: &[f64]) -> Self {
        let top = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let weights = logs.iter().map(|log| (log - top).exp()).collect_vec();
        let total: f64 = weights.iter().sum();
        Self(weights.into_iter().map(|weight| weight / total).collect())
    }

    /// The mean of a value that each point has.
    pub(super) fn average(&self, values: impl Iterator<Item = f64>) -> f64 {
        self.0.iter().zip(values).map(|(weight, value)| weight * value).sum()
    }

    pub(super) fn moments(&self, grid: &Grid) -> Moments {
        let over = |value: &dyn Fn(&Point) -> f64| self.average(grid.points.iter().map(value));
        let mean = [over(&|point| point.index), over(&|point| point.offset)];
        let sd = [
            over(&|point| (point.index - mean[0]).powi(2)).sqrt(),
            over(&|point| (point.offset - mean[1]).powi(2)).sqrt(),
        ];
        let covariance = over(&|point| (point.index - mean[0]) * (point.offset - mean[1]));
        let both = sd[0] * sd[1];
        Moments { mean, sd, correlation: if both > 0.0 { covariance / both } else { 0.0 } }
    }

    /// The density of the index alone.
    pub(super) fn marginal(&self, grid: &Grid) -> Vec<f64> {
        let mut marginal = vec![0.0; grid.indices.len()];
        for (point, weight) in grid.points.iter().zip(&self.0) {
            marginal[point.column] += weight;
        }
        marginal
    }
}
