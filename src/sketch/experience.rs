//! What a fitter knows of a new helmet.

use super::Statement;
use crate::fit::PadSet;
use crate::head::{Posterior, Reading};
use crate::profile::{Kind, Model, Reason, Size, Zone};
use crate::unit::Id;

/// Everything that was said of a new helmet.
#[derive(Debug, Clone, PartialEq)]
pub struct Experience<'a> {
    /// Its sizes, at least one. All of them share one offset of the centres, as if made in one shell.
    pub sizes: Vec<NewSize<'a>>,
    /// What was said of its shape, at least one statement.
    pub statements: Vec<Statement<'a>>,
    /// The customers who tried it.
    pub tried: Vec<Tried>,
    /// The population that their heads are taken to come from.
    pub population: Id,
    /// Seed of every draw.
    pub seed: u64,
}

/// A size of the new helmet.
#[derive(Debug, Clone, PartialEq)]
pub struct NewSize<'a> {
    /// Its label.
    pub label: Id,
    /// The labelled range of circumference, mm.
    pub circumference: (f64, f64),
    /// Its standard pads; brow, rear and sides have one.
    pub standard: PadSet,
    /// The zones whose pad (or lack of one) was given.
    pub given: Vec<Zone>,
    /// Where the pads of the other zones come from.
    pub source: PadSource<'a>,
}

/// Where standard pads come from that nobody gave.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PadSource<'a> {
    /// A size of a model that the new one is like.
    Like(&'a Model, &'a Size),
    /// The medians of so many sizes of the range, of this type where one is named.
    Range(usize, Option<Kind>),
}

/// A customer who tried the new helmet.
#[derive(Debug, Clone, PartialEq)]
pub struct Tried {
    /// The size's place in [`Experience::sizes`].
    pub size: usize,
    /// The head as measured.
    pub head: Posterior,
    /// What was measured.
    pub readings: Vec<Reading>,
    /// The pads that were in the helmet where they were not the standard ones.
    pub mounted: Option<PadSet>,
    /// Why it was no good, a reason with a direction; `None` where it fitted.
    pub reason: Option<Reason>,
}

impl NewSize<'_> {
    /// Middle of the labelled range, mm of circumference.
    #[must_use]
    pub fn centre(&self) -> f64 {
        f64::midpoint(self.circumference.0, self.circumference.1)
    }
}
