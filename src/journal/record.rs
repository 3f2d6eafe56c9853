//! One try: a helmet on a head.

use super::Day;
use crate::head::{Measure, Reading};
use crate::profile::{ByZone, Measurer, Reason, Tool};
use crate::unit::Id;

/// One helmet that a customer put on, with every set of pads that was in it meanwhile. Customer and number together
/// name it: no two records of a journal share both.
#[derive(Debug, Clone, PartialEq)]
pub struct Record {
    /// When.
    pub day: Day,
    /// Whose head: a number that means nothing outside the journal, from 1.
    pub customer: u64,
    /// Which try of this customer, from 1.
    pub number: u32,
    /// What was known of the head before this try, apart from the tries before it.
    pub head: Head,
    /// The model.
    pub model: Id,
    /// The size.
    pub size: Id,
    /// How probable a good fit with the pads on offer was said to be before the try, from 0 to 1; `None` where nobody
    /// asked.
    pub fit_probability: Option<f64>,
    /// One pad set after the other, at least one.
    pub rounds: Vec<Round>,
}

/// What was known of a head.
#[derive(Debug, Clone, PartialEq)]
pub struct Head {
    /// Whose heads the shop expected: an id of the profiles.
    pub population: Id,
    /// What was measured; a measure may have been taken more than once.
    pub readings: Vec<Read>,
    /// The shape that it was judged to be by eye: 0 long, 1 intermediate, 2 round.
    pub shape: Option<usize>,
    /// Helmets that the customer wears.
    pub wears: Vec<Wears>,
}

/// One measure as it was taken.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Read {
    /// What was measured.
    pub measure: Measure,
    /// The value read, mm.
    pub value: f64,
    /// How far such a reading was taken to be off (sd), mm; 0 means exact.
    pub sd: f64,
    /// Who measured.
    pub by: Measurer,
    /// With what.
    pub with: Tool,
}

impl From<&Read> for Reading {
    fn from(read: &Read) -> Self {
        Self { measure: read.measure, value: read.value, sd: read.sd }
    }
}

/// A helmet that the customer came in with.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Wears {
    /// The model.
    pub model: Id,
    /// The size.
    pub size: Id,
    /// Where it hurts; `None` for a helmet that fits.
    pub reason: Option<Reason>,
}

/// One pad set on the head, and what was heard of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Round {
    /// Thickness by zone, mm; `None` for a zone without a pad.
    pub pads: ByZone<Option<f64>>,
    /// Why it was no good; `None` for a good fit.
    pub reason: Option<Reason>,
    /// Minutes that the shop's profile counts for it: fetching and checks in the first round, the swap and the checks
    /// once more in the others.
    pub minutes: f64,
}

impl Record {
    /// The pads that the try ended with, and what was heard of them.
    #[must_use]
    pub fn last(&self) -> Option<&Round> {
        self.rounds.last()
    }

    /// Whether it ended with a good fit.
    #[must_use]
    pub fn fits(&self) -> bool {
        self.last().is_some_and(|round| round.reason.is_none())
    }
}
