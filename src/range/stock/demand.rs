//! How many pads to have of one kind, whatever the law of the demand for it.

use statrs::distribution::{DiscreteCDF, Poisson};

/// How many are wanted until the next delivery.
pub trait Demand {
    /// The expected number.
    fn mean(&self) -> f64;

    /// The probability that so many are enough.
    fn at_most(&self, count: u32) -> f64;

    /// How many of so many are expected to be left over.
    fn left_over(&self, stock: u32) -> f64 {
        // E(s − D)⁺ is the sum of the distribution function below s.
        (0..stock).map(|count| self.at_most(count)).sum()
    }

    /// How many are expected to be missing where there are so many.
    fn missing(&self, stock: u32) -> f64 {
        (self.mean() - f64::from(stock) + self.left_over(stock)).max(0.0)
    }
}

/// What a pad costs that is missing, and what one costs that is left over, in any one unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Losses {
    /// One that is wanted and not there.
    pub missing: f64,
    /// One that is there and not wanted.
    pub left_over: f64,
}

/// The smallest stock that is enough with this probability (below 1).
#[must_use]
pub fn enough(demand: &impl Demand, level: f64) -> u32 {
    let is_enough = |count: u32| demand.at_most(count) >= level;
    let mut above = 1_u32;
    while !is_enough(above - 1) && above < u32::MAX / 2 {
        above *= 2;
    }
    // From here on a search by halves: a distribution function never falls.
    let mut below = 0;
    while below < above - 1 {
        let middle = below + (above - 1 - below) / 2;
        if is_enough(middle) {
            above = middle + 1;
        } else {
            below = middle + 1;
        }
    }
    below
}

/// The smallest stock with the least expected loss: the first that is enough with the probability missing / (missing +
/// left over), the newsvendor's. `None` where nothing is lost by a pad that is left over, and no stock is too large.
#[must_use]
pub fn least_loss(demand: &impl Demand, losses: Losses) -> Option<u32> {
    if losses.missing <= 0.0 {
        return Some(0);
    }
    Some(enough(demand, losses.missing / (losses.missing + losses.left_over))).filter(|_| losses.left_over > 0.0)
}

/// What is lost with so many, on average.
#[must_use]
pub fn expected_loss(demand: &impl Demand, stock: u32, losses: Losses) -> f64 {
    losses.missing * demand.missing(stock) + losses.left_over * demand.left_over(stock)
}

/// Customers who know nothing of each other: a Poisson number of pads.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wanted {
    mean: f64,
    law: Option<Poisson>,
}

impl Wanted {
    /// So many on average, 0 or more.
    #[must_use]
    pub fn of(mean: f64) -> Self {
        // The law has no mean of 0.
        Self { mean: mean.max(0.0), law: Poisson::new(mean).ok() }
    }
}

impl Demand for Wanted {
    fn mean(&self) -> f64 {
        self.mean
    }

    fn at_most(&self, count: u32) -> f64 {
        self.law.map_or(1.0, |law| law.cdf(u64::from(count)))
    }

    fn left_over(&self, stock: u32) -> f64 {
        // Σ k p(k) up to s is λ F(s − 1).
        let below = stock.checked_sub(1).map_or(0.0, |below| self.at_most(below));
        f64::from(stock) * self.at_most(stock) - self.mean * below
    }
}
