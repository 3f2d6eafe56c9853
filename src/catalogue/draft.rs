//! A set of profiles as far as it can be read, before anybody may trust it.

use super::Catalogue;
use crate::diag::{Diagnostic, SourceId, Sources, Span};
use crate::head::Population;
use crate::profile::{Edge, Model, Place, PlaceIndex, Placed, Shop, Unclear};
use crate::unit::{Currency, Id};
use itertools::Itertools;
use std::collections::BTreeSet;

/// What is read of a set of profiles, each value with its place. A value that can't be read has a harmless one in its
/// place and a problem that lies there: [`Look::is_sound`] tells them apart.
#[derive(Debug, Clone, Default)]
pub struct Draft {
    /// Every file whose text could be read.
    pub files: Vec<DraftFile>,
    /// The shop's assumptions.
    pub shop: Option<Placed<Shop>>,
    /// The currencies that files of helmets name.
    pub currencies: Vec<Placed<Currency>>,
    /// The models, file by file.
    pub models: Vec<Placed<Model>>,
    /// The populations, file by file.
    pub populations: Vec<Placed<Population>>,
    /// The shop's rules in the order of the file.
    pub edges: Vec<Placed<Edge>>,
    /// Rules with an unknown reason: they are not among the others.
    pub unclear: Vec<Unclear>,
    /// Files of the folder that nothing reads, by their path.
    pub unread: Vec<String>,
    /// Kinds of files of which not all are here: names that they define are unknown.
    pub hidden: BTreeSet<FileKind>,
    /// How many files and folders could not be opened.
    pub unopened: usize,
    /// What is wrong with single files.
    pub problems: Vec<Diagnostic>,
}

/// One file of a draft.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DraftFile {
    /// Its text.
    pub source: SourceId,
    /// What it is about.
    pub kind: FileKind,
    /// Whether it lends its assumptions only and is itself none of those that are looked at.
    pub is_lent: bool,
}

/// What a profile file is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FileKind {
    /// `shop.yaml`.
    Shop,
    /// `fallbacks.yaml`.
    Fallbacks,
    /// `helmets/*.yaml`.
    Helmets,
    /// `populations/*.yaml`.
    Population,
}

/// A draft together with its texts: what rules look at.
#[derive(Debug)]
pub struct Look<'a> {
    /// The draft.
    pub draft: &'a Draft,
    sources: &'a Sources,
    index: PlaceIndex<'a>,
    doubled: BTreeSet<&'a Id>,
}

impl FileKind {
    /// All kinds.
    pub const ALL: [Self; 4] = [Self::Shop, Self::Fallbacks, Self::Helmets, Self::Population];

    /// What a file of this path within a profiles folder is about.
    #[must_use]
    pub fn of_path(path: &str) -> Option<Self> {
        match path {
            "shop.yaml" => Some(Self::Shop),
            "fallbacks.yaml" => Some(Self::Fallbacks),
            _ if path.starts_with("helmets/") => Some(Self::Helmets),
            _ if path.starts_with("populations/") => Some(Self::Population),
            _ => None,
        }
    }
}

impl<'a> Look<'a> {
    /// A look at a draft whose texts are these.
    #[must_use]
    pub fn new(draft: &'a Draft, sources: &'a Sources) -> Self {
        let doubled = draft.models.iter().map(|model| &model.value.id).duplicates().collect();
        Self { draft, sources, index: PlaceIndex::new(sources), doubled }
    }

    /// The stretch of text of a value.
    #[must_use]
    pub fn span(&self, place: &Place) -> Span {
        self.index.span(place)
    }

    /// The stretch of text of the key that a value stands under.
    #[must_use]
    pub fn key_span(&self, place: &Place) -> Span {
        self.index.key_span(place)
    }

    /// Whether nothing in a value stands in for something that can't be read.
    #[must_use]
    pub fn is_sound(&self, place: &Place) -> bool {
        let mut wrong = self.spans_of_problems().filter(|span| span.source == place.source).peekable();
        wrong.peek().is_none() || {
            let span = self.span(place);
            wrong.all(|wrong| !span.holds_start_of(wrong))
        }
    }

    /// Whether two models have this id.
    #[must_use]
    pub fn is_doubled(&self, id: &Id) -> bool {
        self.doubled.contains(id)
    }

    /// Whether a name may be defined where this program can't see it: in a file that could not be opened, or in
    /// words of a file that has problems.
    #[must_use]
    pub fn may_define(&self, kind: FileKind, name: &str) -> bool {
        let mut faulty = self.draft.files.iter().filter(|file| file.kind == kind && self.has_problems(file.source));
        self.draft.hidden.contains(&kind) || faulty.any(|file| holds_word(&self.sources.get(file.source).text, name))
    }

    /// The models that can be trusted as they stand, among the shop's assumptions, rules and populations, or among the
    /// assumptions and populations of a lender. `None` without a lender and without a shop.
    #[must_use]
    pub fn sound_part(&self, lender: Option<&Catalogue>) -> Option<Catalogue> {
        let models = self.sound_values(&self.draft.models);
        let models = models.into_iter().filter(|model| !self.is_doubled(&model.id)).collect();
        let (shop, populations) = match lender {
            Some(lender) => (lender.shop.clone(), lender.populations.clone()),
            None => (self.draft.shop.as_ref()?.value.clone(), self.sound_values(&self.draft.populations)),
        };
        Some(Catalogue::of_parts(shop, models, populations, self.sound_values(&self.draft.edges)))
    }

    /// Whether the shop's own assumptions and the populations that they name can be used.
    #[must_use]
    pub fn has_sound_shop(&self) -> bool {
        let Some(shop) = self.draft.shop.as_ref().filter(|shop| self.is_sound(&shop.place)) else { return false };
        let is_usable = |id: &Id| {
            let named = self.draft.populations.iter().find(|population| population.value.id == *id);
            named.is_some_and(|population| self.is_sound(&population.place))
        };
        is_usable(&shop.value.population) && is_usable(&shop.value.face_width_from)
    }

    /// Whether any file of a kind has a problem of its own.
    #[must_use]
    pub fn has_problems_in(&self, kind: FileKind) -> bool {
        self.draft.files.iter().any(|file| file.kind == kind && self.has_problems(file.source))
    }

    fn sound_values<T: Clone>(&self, placed: &[Placed<T>]) -> Vec<T> {
        placed.iter().filter(|placed| self.is_sound(&placed.place)).map(|placed| placed.value.clone()).collect()
    }

    fn has_problems(&self, source: SourceId) -> bool {
        self.spans_of_problems().any(|span| span.source == source)
    }

    fn spans_of_problems(&self) -> impl Iterator<Item = Span> {
        self.draft.problems.iter().filter_map(|problem| problem.place.as_ref()).map(|place| place.span)
    }
}

/// Whether a name stands in a text by itself.
fn holds_word(text: &str, name: &str) -> bool {
    let is_part = |c: char| c.is_alphanumeric() || c == '-';
    text.match_indices(name).any(|(at, _)| {
        !name.is_empty() && !text[..at].ends_with(is_part) && !text[at + name.len()..].starts_with(is_part)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_is_found_by_itself_only() {
        assert!(holds_word("- id: harbour-two # x", "harbour-two"));
        assert!(holds_word("harbour", "harbour"));
        assert!(!holds_word("- id: harbour-two", "harbour"));
        assert!(!holds_word("- id: two-harbour", "harbour"));
        assert!(!holds_word("any", ""));
    }
}
