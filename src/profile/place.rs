//! Where a value stands, kept as a path until somebody needs to see it.

use super::yaml::place_of;
use crate::diag::{SourceId, Sources, Span};

/// A value of a profile file, by the path to it.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    source: SourceId,
    path: String,
}

impl Place {
    pub(super) fn new(source: SourceId, path: impl Into<String>) -> Self {
        Self { source, path: path.into() }
    }

    /// The stretch of text. Reads the text once more: only problems need it.
    #[must_use]
    pub fn span(&self, sources: &Sources) -> Span {
        place_of(self.source, &sources.get(self.source).text, &self.path)
    }
}
