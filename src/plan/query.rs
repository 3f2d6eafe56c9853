//! What a plan is asked for.

use super::policy::Lead;
use crate::head::{Measure, Posterior};
use crate::profile::{Model, Reason};
use crate::unit::Id;

/// What a plan is asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct Query<'a> {
    /// The head as measured.
    pub head: Posterior,
    /// What was measured.
    pub measured: Vec<Measure>,
    /// Helmets that the customer wears.
    pub worn: Vec<Worn<'a>>,
    /// The models that may be tried.
    pub models: Vec<&'a Model>,
    /// Seed of every draw.
    pub seed: u64,
    /// Most helmets to try.
    pub tries: usize,
    /// Most minutes to spend, where there is a limit.
    pub minutes: Option<f64>,
    /// Who leads.
    pub lead: Lead,
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
