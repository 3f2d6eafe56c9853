//! What journals say: how helmets truly are inside, how often a reason is misreported, how far readings are off, and
//! whose heads come in.
//!
//! Pure: records in, beliefs out, each beside what the profiles said before; nothing is changed. What is learned from
//! some customers is scored on others. See docs/method.md, "Learning".

mod apply;
mod belief;
mod customers;
mod helmets;
mod lattice;
mod learning;
mod misreports;
mod normals;
mod patch;
mod population;
mod readings;
mod replay;
mod scores;
mod testimony;
mod verdict;
mod witness;

pub use belief::Belief;
pub use learning::{Learned, LearnedMethod, LearnedModel, LearnedPopulation, LearnedShell, learn};
pub use patch::{FileChange, LineChange, changes};
pub use scores::{Difference, Score, Scores};
pub use verdict::Verdict;

use crate::head::Population;

/// What is asked of the journals.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Question<'a> {
    /// The population that the shop's own is learned from.
    pub population: &'a Population,
    /// Which customers are kept apart.
    pub kept_apart: KeptApart,
    /// Seed of every draw.
    pub seed: u64,
}

/// Which customers are kept apart to judge what was learned from the others.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum KeptApart {
    /// One in so many, whenever they came.
    Some,
    /// As many, those who came last.
    Latest,
}
