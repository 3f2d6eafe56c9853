//! Evenly spaced values around a belief.

use super::Belief;

/// Values of one unknown, and where the next grid should lie.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Lattice {
    pub(super) values: Vec<f64>,
    step: f64,
}

/// Steps to each side of the first grid, which lies around the prior: 4.8 standard deviations. A grid in steps of 0.6
/// standard deviations adds up a normal to more digits than are shown.
const FIRST: i32 = 8;
/// Steps to each side of the others.
const NEXT: i32 = 7;
const STEP: f64 = 0.6;

impl Lattice {
    /// Around what was believed before. One value where there is nothing to doubt.
    pub(super) fn first(prior: Belief) -> Self {
        Self::around(prior.mean, STEP * prior.sd, FIRST)
    }

    /// Around what a coarser grid found; never finer than that one could see.
    pub(super) fn next(&self, found: Belief) -> Self {
        Self::around(found.mean, (STEP * found.sd).max(0.3 * self.step), NEXT)
    }

    fn around(mean: f64, step: f64, steps: i32) -> Self {
        if step <= 0.0 {
            return Self { values: vec![mean], step: 0.0 };
        }
        Self { values: (-steps..=steps).map(|k| mean + step * f64::from(k)).collect(), step }
    }
}

/// Log density of a normal but for a constant; a sure belief doubts nothing.
pub(super) fn log_normal(belief: Belief, value: f64) -> f64 {
    if belief.sd > 0.0 { -0.5 * ((value - belief.mean) / belief.sd).powi(2) } else { 0.0 }
}
