//! A profile from experience: what a fitter says of a new helmet, and the customers who tried it, become the shape
//! index of its interior with an honest error.
//!
//! Unknown are the index S and the offset δ of the size centres from their labels. What was said of the shape is a
//! normal prior of S; each customer's report is a likelihood over both; a grid adds them up in logarithms. Pure: no
//! file, no clock, randomness only from the seed that is passed in.

mod evidence;
mod experience;
mod findings;
mod grid;
mod inference;
mod oddness;
mod outlook;
mod prior;
mod proposal;
mod standard_pads;

pub(crate) use evidence::{excesses, good};
pub use experience::{Experience, NewSize, PadSource, Tried};
pub use findings::Finding;
pub use grid::{Fineness, Pitch};
pub use inference::sketch;
pub use prior::{Comparison, Normal, Saying, Statement, discord, statements, together};
pub use proposal::{Proposal, Unfit};
pub use standard_pads::standard_pads;

use crate::fit::Quote;

/// What experience says of a new helmet.
#[derive(Debug, Clone, PartialEq)]
pub struct Sketch {
    /// The shape index before any customer.
    pub prior: Normal,
    /// Standard deviation of the offset before any customer, mm of circumference.
    pub prior_offset_sd: f64,
    /// The largest distance between two statements about the shape, in standard deviations.
    pub discord: f64,
    /// The shape index with the customers.
    pub index: Figure,
    /// The offset of the size centres from their labels with the customers, mm of circumference; more than 0 is a
    /// helmet that is larger than labelled.
    pub offset: Figure,
    /// How index and offset go together, −1 to 1.
    pub correlation: f64,
    /// Eight in ten such helmets have their index in here.
    pub interval: (f64, f64),
    /// Two separate possible shapes, the longer one first, where there are two.
    pub humps: Option<[Hump; 2]>,
    /// What each customer contributes, in their order.
    pub heard: Vec<Heard>,
    /// How well such reports go with the shape as sketched.
    pub here: Oddness,
    /// How well they go with the shape that makes them most probable, whatever was said of it.
    pub at_best: Oddness,
}

/// A figure with its standard deviation, each with its sampling error.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figure {
    /// The mean.
    pub mean: Quote,
    /// The standard deviation.
    pub sd: Quote,
}

/// One of two possible shapes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hump {
    /// Mean index of the hump.
    pub mean: f64,
    /// Its share of the probability.
    pub share: f64,
}

/// What one customer contributes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Heard {
    /// How probable the report is for the helmet as sketched, misreports counted.
    pub expected: f64,
    /// By how much this customer moves the index: with all customers, minus with all the others.
    pub pull: f64,
    /// Share of heads that are less unusual than the readings.
    pub rarity: f64,
}

/// How odd all reports are together for one possible helmet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Oddness {
    /// Its shape index.
    pub index: f64,
    /// The offset of its size centres, mm of circumference.
    pub offset: f64,
    /// How probable it is that such customers report something at most as probable as they did; 1 without customers.
    pub probability: f64,
}

impl Sketch {
    /// The standard deviation of a direct measurement of the index that would be worth as much as all customers
    /// together; `None` where they did not narrow it.
    #[must_use]
    pub fn worth(&self) -> Option<f64> {
        let gained = self.index.sd.value.powi(-2) - self.prior.sd.powi(-2);
        (gained > 1e-9).then(|| gained.powf(-0.5))
    }
}
