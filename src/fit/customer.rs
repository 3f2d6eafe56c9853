//! One customer: what is known of the head.

use super::PadSet;
use crate::head::{PARTICLES, Posterior, Reading};
use crate::profile::{Model, Reason};
use crate::unit::Id;

/// Sets of fresh heads from which figures are quoted; the scatter between them is the error.
pub const JUDGES: u32 = 8;

/// What is known of a customer's head.
#[derive(Debug, Clone, PartialEq)]
pub struct Customer<'a> {
    /// The head as measured.
    pub head: Posterior,
    /// What was measured, at most one reading of each measure.
    pub readings: Vec<Reading>,
    /// The population that the head is taken to come from.
    pub population: Id,
    /// Helmets that the customer wears, and what was tried already.
    pub worn: Vec<Worn<'a>>,
    /// Seed of every draw.
    pub seed: u64,
}

impl Customer<'_> {
    /// Heads in each of the sets from which figures are quoted: 8192 in all, twice as many as choose a plan. Four
    /// times that where a worn helmet is evidence, because then only the heads that agree with it count.
    #[must_use]
    pub fn judged_heads(&self) -> usize {
        if self.worn.is_empty() { PARTICLES / 4 } else { PARTICLES }
    }
}

/// A helmet that the customer wears or has tried, and what it does: evidence about the head.
#[derive(Debug, Clone, PartialEq)]
pub struct Worn<'a> {
    /// The model.
    pub model: &'a Model,
    /// The size.
    pub size: Id,
    /// The pads in it. `None` for the standard ones, which a helmet in use is taken to have: whoever had them swapped
    /// would not complain.
    pub pads: Option<PadSet>,
    /// Where it hurts; `None` for a helmet that fits.
    pub reason: Option<Reason>,
}
