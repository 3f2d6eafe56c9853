//! Where a value stands, kept as a path until somebody needs to see it.

use super::yaml::Places;
use crate::diag::{SourceId, Sources, Span};
use std::cell::OnceCell;

/// A value of a profile file, by the path to it.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    /// The file.
    pub source: SourceId,
    path: String,
}

/// A value with the place of the group, or the word, that it was read from.
#[derive(Debug, Clone, PartialEq)]
pub struct Placed<T> {
    /// The value.
    pub value: T,
    /// Where it stands.
    pub place: Place,
}

/// Turns places into stretches of text. A file is looked through once, when its first place is asked for.
#[derive(Debug)]
pub struct PlaceIndex<'s> {
    sources: &'s Sources,
    by_source: Vec<OnceCell<Places<'s>>>,
}

impl Place {
    pub(super) fn new(source: SourceId, path: impl Into<String>) -> Self {
        Self { source, path: path.into() }
    }

    /// The value of a key of this group.
    #[must_use]
    pub fn key(&self, key: &str) -> Self {
        let dot = if self.path.is_empty() { "" } else { "." };
        Self::new(self.source, format!("{}{dot}{key}", self.path))
    }

    /// An entry of this list, from 0.
    #[must_use]
    pub fn entry(&self, at: usize) -> Self {
        Self::new(self.source, format!("{}[{at}]", self.path))
    }

    /// The whole file.
    #[must_use]
    pub fn file(&self) -> Self {
        Self::new(self.source, "")
    }
}

impl<'s> PlaceIndex<'s> {
    /// An index of these texts.
    #[must_use]
    pub fn new(sources: &'s Sources) -> Self {
        Self { sources, by_source: sources.ids().map(|_| OnceCell::new()).collect() }
    }

    /// The stretch of text of a value; where the file lacks it, that of the nearest value around it.
    #[must_use]
    pub fn span(&self, place: &Place) -> Span {
        self.places(place.source).value(&place.path)
    }

    /// The stretch of text of the key that a value stands under.
    #[must_use]
    pub fn key_span(&self, place: &Place) -> Span {
        self.places(place.source).key(&place.path)
    }

    fn places(&self, source: SourceId) -> &Places<'s> {
        let text = &self.sources.get(source).text;
        self.by_source[source.number()].get_or_init(|| Places::later(source, text))
    }
}
