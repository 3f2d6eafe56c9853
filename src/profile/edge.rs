//! One rule of the shop: after this model failed for this reason, try that one.

use super::Reason;
use crate::unit::Id;

/// A directed edge of the shop's graph.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Edge {
    /// The model that failed.
    pub from: Id,
    /// Why it failed.
    pub reason: Reason,
    /// The model to try next.
    pub to: Id,
    /// What the shop says about it.
    pub note: String,
    /// Which size of the next model, where the shop says so.
    pub size: Option<SizeHint>,
}

/// Which size of the next model to take.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SizeHint {
    /// The label that failed.
    Same,
    /// One up from it.
    Up,
    /// One down from it.
    Down,
    /// This label.
    Label(Id),
}

impl SizeHint {
    /// How rules write it.
    #[must_use]
    pub fn as_written(&self) -> &str {
        match self {
            Self::Same => "same",
            Self::Up => "up",
            Self::Down => "down",
            Self::Label(label) => label.as_str(),
        }
    }
}
