//! How far readings are off, and whose heads come in: both from the readings alone, because each of them can stand for
//! the other.

use super::Belief;
use super::customers::Visitor;
use super::normals::{Matrix, inverse, times};
use super::readings::{Guess, Likes, Told, covariance, readings};
use crate::head::{Component, Gaussian, Population};
use crate::profile::{LearningRules, Shop};
use itertools::Itertools;

/// What readings say.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Measured {
    /// Heads of which anything was measured.
    pub(super) heads: usize,
    /// How far the customers' means are from the population's, mm: C, L, B, W.
    pub(super) shift: [Belief; 4],
    /// The same before.
    pub(super) shift_before: [Belief; 4],
    /// Factor on the population's standard deviations, before and now.
    pub(super) spread: [Belief; 2],
    /// By line under `measuring`: standard deviation before and now, and readings that tell of it.
    pub(super) lines: Vec<([Belief; 2], usize)>,
}

/// Rounds of each in turn; the second changes hardly anything.
const ROUNDS: usize = 3;
/// Steps towards the shift, of which each cuts the rest by more than half.
const STEPS: usize = 25;
/// Grid points of a factor, and how many of its standard deviations to each side.
const POINTS: i32 = 24;
const REACH: f64 = 3.5;

pub(super) fn measured(shop: &Shop, population: &Population, visitors: &[&Visitor<'_>]) -> Measured {
    let likes = readings(shop, visitors);
    let mut learner = Learner {
        rules: &shop.learning,
        population,
        prior: covariance(population),
        stated: shop.measuring.iter().map(|line| line.2).collect(),
        guess: Guess { shift: [0.0; 4], spread: 1.0, sds: shop.measuring.iter().map(|line| line.2).collect() },
        likes: &likes,
    };
    let mut spread = learner.prior_spread();
    let spread_before = spread;
    let mut lines = learner.stated.iter().map(|sd| learner.prior_sd(*sd)).collect_vec();
    let lines_before = lines.clone();
    for _ in 0..ROUNDS {
        learner.step_shift();
        for (line, belief) in lines.iter_mut().enumerate() {
            if learner.tells(line) > 0 {
                *belief = learner.sd(line);
                learner.guess.sds[line] = belief.mean;
            }
        }
        if !likes.is_empty() {
            spread = learner.spread();
            learner.guess.spread = spread.mean;
        }
    }
    let shift = learner.step_shift();
    let sd_before = |k: usize| (learner.prior[k][k] / shop.learning.population_customers).sqrt();
    let told = (0..lines.len()).map(|line| learner.tells(line)).collect_vec();
    Measured {
        heads: likes.iter().map(|likes| likes.values.len()).sum(),
        shift,
        shift_before: [0, 1, 2, 3].map(|k| Belief { mean: 0.0, sd: sd_before(k) }),
        spread: [spread_before, spread],
        lines: lines_before.into_iter().zip(lines).zip(told).map(|((a, b), told)| ([a, b], told)).collect(),
    }
}

struct Learner<'a> {
    rules: &'a LearningRules,
    population: &'a Population,
    /// Covariance of one head: that of the shift's prior is so many customers smaller.
    prior: Matrix,
    stated: Vec<f64>,
    guess: Guess,
    likes: &'a [Likes],
}

impl Learner<'_> {
    fn log_probability(&self, guess: &Guess) -> f64 {
        self.likes.iter().map(|likes| likes.log_probability(self.population, guess)).sum()
    }

    fn tells(&self, line: usize) -> usize {
        self.likes.iter().map(|likes| likes.with(line)).sum()
    }

    /// The shift for which the readings and its prior are most probable (expectation-maximisation over the components),
    /// and how sure it is (the information with what the components' doubt takes from it: Louis 1982).
    fn step_shift(&mut self) -> [Belief; 4] {
        let Some(prior) = self.prior_precision() else { return [Belief::default(); 4] };
        let mut sure = prior.clone();
        for _ in 0..STEPS {
            let (mut bend, mut slope) = (prior.clone(), times(&prior, &self.guess.shift));
            slope.iter_mut().for_each(|x| *x = -*x);
            sure = prior.clone();
            for told in self.likes.iter().flat_map(|likes| likes.told(self.population, &self.guess)) {
                add(&told, &mut bend, &mut slope, &mut sure);
            }
            let Some((inverse, _)) = inverse(&bend) else { break };
            let step = times(&inverse, &slope);
            self.guess.shift.iter_mut().zip(&step).for_each(|(shift, step)| *shift += step);
        }
        let variance = inverse(&sure).map(|(inverse, _)| inverse);
        [0, 1, 2, 3].map(|k| {
            let sd = variance.as_ref().map_or(0.0, |variance| variance[k][k].max(0.0).sqrt());
            Belief { mean: self.guess.shift[k], sd }
        })
    }

    fn prior_precision(&self) -> Option<Matrix> {
        let (mut precision, _) = inverse(&self.prior)?;
        precision.iter_mut().flatten().for_each(|x| *x *= self.rules.population_customers);
        Some(precision)
    }

    /// A stated standard deviation may be off by a factor: its logarithm is normal, its mean is what was stated.
    fn prior_sd(&self, stated: f64) -> Belief {
        let weighted = self.factors().map(|(z, factor)| (-0.5 * z * z, stated * factor)).collect_vec();
        Belief::of_logs(&weighted)
    }

    fn factors(&self) -> impl Iterator<Item = (f64, f64)> + Clone {
        let unit = self.rules.measuring_factor.ln();
        (-POINTS..=POINTS).map(move |k| {
            let z = REACH * f64::from(k) / f64::from(POINTS);
            (z, (z * unit - 0.5 * unit * unit).exp())
        })
    }

    /// The error of a line, whatever the spread of the heads is: one can stand for the other.
    fn sd(&self, line: usize) -> Belief {
        let mut weighted = Vec::new();
        for (z, factor) in self.factors() {
            let sd = self.stated[line] * factor;
            let mut guess = self.guess.clone();
            guess.sds[line] = sd;
            let around = Self::spreads().step_by(4).map(|spread| {
                guess.spread = spread;
                self.log_prior_spread(spread) + self.log_probability(&guess)
            });
            let around = around.collect_vec();
            weighted.push((-0.5 * z * z + super::belief::log_sum(around.iter().copied()), sd));
        }
        Belief::of_logs(&weighted)
    }

    fn spreads() -> impl Iterator<Item = f64> {
        (-20..=20).map(|k| (0.02 * f64::from(k)).exp())
    }

    /// The variance of so many customers, scaled inverse χ² (the conjugate prior of a variance), as a density of the
    /// logarithm of the spread.
    fn log_prior_spread(&self, spread: f64) -> f64 {
        let customers = self.rules.population_customers;
        -customers * spread.ln() - 0.5 * customers / spread.powi(2)
    }

    fn prior_spread(&self) -> Belief {
        let logs = Self::spreads().map(|spread| (self.log_prior_spread(spread), spread));
        Belief::of_logs(&logs.collect_vec())
    }

    fn spread(&self) -> Belief {
        let logs = Self::spreads().map(|spread| {
            let guess = Guess { spread, ..self.guess.clone() };
            (self.log_prior_spread(spread) + self.log_probability(&guess), spread)
        });
        Belief::of_logs(&logs.collect_vec())
    }
}

/// Adds one head: what it tells if its component were known, the slope, and the information that is left of it where
/// the component isn't known.
fn add(told: &Told, bend: &mut Matrix, slope: &mut [f64], sure: &mut Matrix) {
    let total = super::belief::log_sum(told.logs.iter().copied());
    let shares = told.logs.iter().map(|log| (log - total).exp()).collect_vec();
    let mean =
        [0, 1, 2, 3].map(|i| shares.iter().zip(&told.scores).map(|(share, score)| share * score[i]).sum::<f64>());
    for i in 0..4 {
        slope[i] += mean[i];
        for j in 0..4 {
            let parts = || shares.iter().zip(&told.scores).zip(&told.bends);
            let own: f64 = parts().map(|((share, _), bends)| share * bends[i][j]).sum();
            let doubt: f64 = parts().map(|((share, score), _)| share * score[i] * score[j]).sum();
            bend[i][j] += own;
            sure[i][j] += own - (doubt - mean[i] * mean[j]);
        }
    }
}

/// The population with its means moved and its standard deviations multiplied.
pub(super) fn moved(population: &Population, shift: [f64; 4], spread: f64) -> Vec<Component> {
    let part = |part: &Component| {
        let mut heads = Gaussian { ..part.heads };
        heads.mean.iter_mut().zip(shift).for_each(|(mean, shift)| *mean += shift);
        heads.covariance.iter_mut().flatten().for_each(|value| *value *= spread.powi(2));
        Component { heads, ..part.clone() }
    };
    population.components().iter().map(part).collect()
}

#[cfg(test)]
mod tests {
    use super::super::readings::Error;
    use super::*;
    use crate::catalogue::{Origin, load};
    use crate::diag::Sources;
    use crate::unit::Id;

    /// One component in which the circumference stands alone.
    fn people(mean: f64, sd: f64) -> Population {
        let mut covariance = [[0.0; 4]; 4];
        (0..4).for_each(|k| covariance[k][k] = sd * sd);
        let heads = Gaussian { mean: [mean, 195.0, 150.0, 138.0], covariance };
        let all = Component { name: "all".to_owned(), share: 1.0, heads };
        Population::new(Id::try_from("x").unwrap(), "x".to_owned(), "test".to_owned(), vec![all]).unwrap()
    }

    // Normal prior 3.8, sd 1.12; eight values with the mean 3.35 and sd 5.8: 3.696604, sd 0.982944 (the vignette of the
    // R package bayesrules, memory).
    #[test]
    fn a_shift_is_shrunk_as_in_the_textbook() {
        let catalogue = load(&Origin::BuiltIn, &mut Sources::default()).unwrap();
        let (mean, sd) = (500.0, 5.8);
        let population = people(mean, sd);
        let rules = LearningRules { population_customers: (sd / 1.12_f64).powi(2), ..catalogue.shop.learning };
        let exact = Error::Own(0.0_f64.to_bits());
        let values = vec![vec![mean + 3.35 - 3.8]; 8];
        let likes = [Likes { measures: vec![0], errors: vec![exact], values }];
        let mut learner = Learner {
            rules: &rules,
            population: &population,
            prior: covariance(&population),
            stated: Vec::new(),
            guess: Guess { shift: [0.0; 4], spread: 1.0, sds: Vec::new() },
            likes: &likes,
        };
        let [shift, unread, ..] = learner.step_shift();
        assert!((3.8 + shift.mean - 3.696_604).abs() < 2e-6 && (shift.sd - 0.982_944).abs() < 2e-6, "{shift:?}");
        assert!(unread.mean.abs() < 1e-9 && (unread.sd - 1.12).abs() < 1e-9, "nobody measured it: {unread:?}");
    }
}
