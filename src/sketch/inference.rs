//! Bayes on the grid: what was said, times what each customer reports.

use super::evidence::Witness;
use super::grid::{Density, Grid, Moments};
use super::oddness::oddness;
use super::outlook::outlook;
use super::{Experience, Figure, Fineness, Heard, Oddness, Sketch, discord, together};
use crate::catalogue::Catalogue;
use crate::fit::Quote;
use itertools::Itertools;

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
    let grid = outlook(&grid, &witnesses, catalogue);
    let (posterior, testimonies) = Posterior::of(&grid, &witnesses, catalogue);
    let marginal = posterior.density.marginal(&grid);
    let heard = experience.tried.iter().zip(&testimonies).map(|(tried, own)| Heard {
        expected: posterior.density.average(own.iter().map(|log| log.exp())),
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

/// The density with all customers.
struct Posterior {
    logs: Vec<f64>,
    density: Density,
    moments: Moments,
    /// From each set of heads alone.
    by_set: Vec<Moments>,
}

impl Posterior {
    /// With what each customer says at every point.
    fn of(grid: &Grid, witnesses: &[Witness], catalogue: &Catalogue) -> (Self, Vec<Vec<f64>>) {
        let prior = grid.points().iter().map(|point| point.log_prior).collect_vec();
        let mut by_set = std::array::from_fn(|_| prior.clone());
        let mut logs = prior;
        let mut testimonies = Vec::new();
        for witness in witnesses {
            let testimony = witness.testify(grid, catalogue, &mut by_set);
            for (sum, log) in logs.iter_mut().zip(&testimony) {
                *sum += log;
            }
            testimonies.push(testimony);
        }
        let density = Density::of(&logs);
        let by_set = by_set.iter().map(|logs| Density::of(logs).moments(grid)).collect();
        (Self { moments: density.moments(grid), by_set, density, logs }, testimonies)
    }

    /// Index (0) or offset (1); the scatter between the sets of heads is the sampling error.
    fn figure(&self, k: usize) -> Figure {
        let scatter = |value: fn(&Moments) -> [f64; 2]| Quote {
            value: value(&self.moments)[k],
            error: Quote::of(self.by_set.iter().map(|moments| value(moments)[k])).error,
        };
        Figure { mean: scatter(|moments| moments.mean), sd: scatter(|moments| moments.sd) }
    }

    /// With all customers but one.
    fn without(&self, own: &[f64], grid: &Grid) -> Moments {
        let others = self.logs.iter().zip(own).map(|(all, own)| all - own).collect_vec();
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

#[cfg(test)]
mod tests {
    use super::super::{NewSize, Normal, Saying, Statement, Tried, standard_pads};
    use super::*;
    use crate::catalogue::{Origin, load};
    use crate::diag::Sources;
    use crate::head::{Measure, Posterior as Head, Reading};
    use crate::profile::Reason;
    use crate::unit::Id;
    use rstest::rstest;

    /// Heads from long to round that find a helmet of the middle good or not.
    fn customers(catalogue: &Catalogue, count: u32, sd: f64) -> Vec<Tried> {
        let population = catalogue.population("adults").unwrap();
        let tried = |k: u32| {
            let (wide, large) = (f64::from(k * 7 % 20) - 10.0, f64::from(k * 3 % 11) - 5.0);
            let reading = |measure, value| Reading { measure, value, sd };
            let readings = vec![
                reading(Measure::Circumference, 575.0 + 2.0 * large),
                reading(Measure::Length, 197.0 - 0.8 * wide + large),
                reading(Measure::Breadth, 152.0 + 0.8 * wide),
            ];
            let reason = match wide {
                _ if wide > 6.0 => Some(Reason::TemplesPress),
                _ if wide < -6.0 => Some(Reason::LooseSides),
                _ => None,
            };
            Tried { size: 0, head: Head::new(population, &readings, None), readings, mounted: None, reason }
        };
        (0..count).map(tried).collect()
    }

    #[rstest]
    #[case(0, 1.5)]
    #[case(1, 0.0)]
    #[case(6, 1.5)]
    #[case(25, 1.5)]
    #[case(25, 0.0)]
    fn what_is_left_out_changes_nothing(#[case] count: u32, #[case] sd: f64) {
        let catalogue = load(&Origin::BuiltIn, &mut Sources::default()).unwrap();
        let (standard, source) = standard_pads(&catalogue, None, None, 575.0);
        let label = Id::try_from("M").unwrap();
        let size = NewSize { label, circumference: (570.0, 580.0), standard, given: Vec::new(), source };
        let index = Normal { mean: 78.5, sd: 3.0 };
        let experience = Experience {
            sizes: vec![size],
            statements: vec![Statement { said: Saying::Range(16, None), index }],
            tried: customers(&catalogue, count, sd),
            population: catalogue.shop.population.clone(),
            seed: 1,
        };
        let call = |tried| Witness::call(&catalogue, &experience, tried, 16);
        let witnesses = experience.tried.iter().map(call).collect_vec();
        let whole = Grid::around(&experience.statements, index, 3.0, Fineness::default());
        let part = outlook(&whole, &witnesses, &catalogue);
        assert!(part.points().len() < whole.points().len());
        assert!(count < 25 || 6 * part.points().len() < whole.points().len(), "{}", part.points().len());
        let [all, some] = [&whole, &part].map(|grid| Posterior::of(grid, &witnesses, &catalogue).0.moments);
        for k in [0, 1] {
            assert!((all.mean[k] - some.mean[k]).abs() < 1e-4, "{all:?} {some:?}");
            assert!((all.sd[k] - some.sd[k]).abs() < 1e-3, "{all:?} {some:?}");
        }
    }
}
