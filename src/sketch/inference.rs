//! Bayes on the grid: what was said, times what each customer reports.

use super::evidence::{SETS, Testimony, Witness};
use super::grid::{Density, Grid, Moments};
use super::oddness::oddness;
use super::{Experience, Figure, Fineness, Heard, Oddness, Sketch, discord, together};
use crate::catalogue::Catalogue;
use crate::fit::Quote;
use itertools::Itertools;

/// A point whose log density lies so far below the highest one counts for nothing: its share is below a millionth.
const NEGLIGIBLE: f64 = 14.0;

/// How many steps of the index lie between two looks for the highest density.
const GLANCE: usize = 8;

/// Sketches a helmet. There must be at least one statement; every tried size must be one of the sizes.
///
/// Cost: linear in customers × points of the grid × heads.
#[must_use]
pub fn sketch(catalogue: &Catalogue, experience: &Experience<'_>, fineness: Fineness) -> Sketch {
    let prior = together(&experience.statements);
    let offset_sd = catalogue.shop.profile_errors.by_eye.centre;
    let call = |tried| Witness::call(catalogue, experience, tried, fineness.heads);
    let witnesses = experience.tried.iter().map(call).collect_vec();
    let grid = Grid::around(&experience.statements, prior, offset_sd, fineness);
    let grid = without_negligible(grid, &witnesses, catalogue);
    let testimonies = witnesses.iter().map(|witness| witness.testify(&grid, catalogue)).collect_vec();
    let posterior = Posterior::of(&grid, &testimonies);
    let marginal = posterior.density.marginal(&grid);
    let heard = experience.tried.iter().zip(&testimonies).map(|(tried, own)| Heard {
        expected: posterior.density.average(own.pooled.iter().map(|log| log.exp())),
        pull: posterior.moments.mean[0] - posterior.without(own, &grid).mean[0],
        rarity: tried.head.rarity(),
    });
    let odd = |at: usize| {
        let point = grid.points()[at];
        let chances = witnesses.iter().map(|witness| witness.chances(point, catalogue)).collect_vec();
        Oddness { index: point.index, offset: point.offset, probability: oddness(&chances) }
    };
    Sketch {
        prior,
        prior_offset_sd: offset_sd,
        discord: discord(&experience.statements),
        index: posterior.figure(0),
        offset: posterior.figure(1),
        correlation: posterior.moments.correlation,
        interval: (grid.quantile(&marginal, 0.1), grid.quantile(&marginal, 0.9)),
        humps: grid.humps(&marginal, catalogue.shop.sketch.hump_share),
        heard: heard.collect(),
        here: odd(posterior.highest(|at| posterior.logs[at])),
        at_best: odd(posterior.highest(|at| posterior.logs[at] - grid.points()[at].log_prior)),
    }
}

/// Leaves out the points that can't matter: no report has a probability above 1, so no point's density rises above
/// its prior.
fn without_negligible(grid: Grid, witnesses: &[Witness], catalogue: &Catalogue) -> Grid {
    let middle = grid.points().iter().filter(|point| point.offset.abs() < f64::EPSILON).step_by(GLANCE);
    let log = |witness: &Witness, point| witness.chance(point, catalogue).ln();
    let height = |point| witnesses.iter().map(|witness| log(witness, point)).sum::<f64>();
    let highest = middle.map(|point| point.log_prior + height(*point)).fold(f64::NEG_INFINITY, f64::max);
    grid.without_lower(highest - NEGLIGIBLE)
}

/// The density with all customers.
struct Posterior {
    logs: Vec<f64>,
    density: Density,
    moments: Moments,
    /// From each set of heads alone.
    by_set: Vec<Moments>,
}

impl Posterior {
    fn of(grid: &Grid, testimonies: &[Testimony]) -> Self {
        let logs = added(grid, testimonies.iter().map(|testimony| testimony.pooled.as_slice()));
        let density = Density::of(&logs);
        let of_set = |set: usize| {
            let logs = added(grid, testimonies.iter().map(|testimony| testimony.by_set[set].as_slice()));
            Density::of(&logs).moments(grid)
        };
        Self { moments: density.moments(grid), by_set: (0..SETS).map(of_set).collect(), density, logs }
    }

    /// Index (0) or offset (1); the scatter between the sets of heads is the sampling error.
    fn figure(&self, k: usize) -> Figure {
        let scatter = |value: fn(&Moments) -> [f64; 2]| Quote {
            value: value(&self.moments)[k],
            error: Quote::of(self.by_set.iter().map(|moments| value(moments)[k])).error,
        };
        Figure { mean: scatter(|moments| moments.mean), sd: scatter(|moments| moments.sd) }
    }

    fn without(&self, own: &Testimony, grid: &Grid) -> Moments {
        let others = self.logs.iter().zip(&own.pooled).map(|(all, own)| all - own).collect_vec();
        Density::of(&others).moments(grid)
    }

    /// The point where a value is highest; of equal ones the one with the higher density.
    fn highest(&self, value: impl Fn(usize) -> f64) -> usize {
        let by_value = |a: &usize, b: &usize| {
            value(*a).total_cmp(&value(*b)).then(self.logs[*a].total_cmp(&self.logs[*b])).then(b.cmp(a))
        };
        (0..self.logs.len()).max_by(by_value).unwrap_or(0)
    }
}

/// The prior with the logs of evidence added point by point.
fn added<'a>(grid: &Grid, evidence: impl Iterator<Item = &'a [f64]>) -> Vec<f64> {
    let mut sums = grid.points().iter().map(|point| point.log_prior).collect_vec();
    for part in evidence {
        for (sum, log) in sums.iter_mut().zip(part) {
            *sum += log;
        }
    }
    sums
}
