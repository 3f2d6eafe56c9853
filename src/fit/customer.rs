//! One customer: what is known of the head.

use crate::head::{Posterior, Reading};
use crate::profile::{Model, Reason};
use crate::unit::Id;

/// What is known of a customer's head.
#[derive(Debug, Clone, PartialEq)]
pub struct Customer<'a> {
    /// The head as measured.
    pub head: Posterior,
    /// What was measured, at most one reading of each measure.
    pub readings: Vec<Reading>,
    /// The population that the head is taken to come from.
    pub population: Id,
    /// Helmets that the customer wears.
    pub worn: Vec<Worn<'a>>,
    /// Seed of every draw.
    pub seed: u64,
}

/// A helmet that the customer wears, and what it does: evidence about the head.
#[derive(Debug, Clone, PartialEq)]
pub struct Worn<'a> {
    /// The model.
    pub model: &'a Model,
    /// The size.
    pub size: Id,
    /// Where it hurts; `None` for a helmet that fits.
    pub reason: Option<Reason>,
}
