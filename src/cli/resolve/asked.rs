//! What a question about the range is asked of: which customers, which helmets.

use super::Resolver;
use crate::catalogue::Catalogue;
use crate::cli::args::{TypedFilter, TypedHead, TypedPeople};
use crate::diag::{Diagnostic, Sources};
use crate::fit::Candidate;
use crate::head::Population;
use crate::profile::Model;
use crate::range::{Column, Shelf};
use crate::unit::Id;
use std::num::NonZeroUsize;
use std::path::PathBuf;

/// Which customers and which helmets.
pub(in crate::cli) struct Asked<'a> {
    /// Whose heads are drawn, and what fills up a table of heads that lacks a measure.
    pub(in crate::cli) population: &'a Population,
    /// The models, at least one.
    pub(in crate::cli) models: Vec<&'a Model>,
    /// What is not there.
    pub(in crate::cli) absent: Vec<(Id, Id)>,
    /// Where heads come from.
    pub(in crate::cli) people: People,
    /// Threads to count on.
    pub(in crate::cli) threads: NonZeroUsize,
    /// Seed of every draw.
    pub(in crate::cli) seed: u64,
}

/// Where heads come from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(in crate::cli) enum People {
    /// So many are drawn from the population.
    Drawn(u64),
    /// They stand in this file, or come on standard input where it is `-`.
    Table(PathBuf),
}

/// What was asked, or everything that is unknown in it.
pub(in crate::cli) fn asked<'a>(
    people: &TypedPeople,
    filter: &TypedFilter,
    catalogue: &'a Catalogue,
    sources: &mut Sources,
) -> Result<Asked<'a>, Vec<Diagnostic>> {
    let mut resolver = Resolver::default();
    let notes = resolver.notes(&TypedHead::default(), filter, sources)?;
    let population = people.population.as_ref().map(|text| sources.say("--population", text.clone()));
    let population = resolver.population(population.as_ref(), catalogue);
    let range = resolver.range(&notes, catalogue);
    let asked = population.zip(range).map(|(population, range)| Asked {
        population,
        models: range.models,
        absent: range.absent,
        people: people.heads_from.clone().map_or(People::Drawn(people.heads), People::Table),
        threads: people.threads.or_else(|| std::thread::available_parallelism().ok()).unwrap_or(NonZeroUsize::MIN),
        seed: people.seed,
    });
    resolver.finish(asked)
}

/// The helmets that a filter leaves, every size that is there, or everything that is unknown in it.
pub(in crate::cli) fn helmets<'a>(
    filter: &TypedFilter,
    catalogue: &'a Catalogue,
    sources: &mut Sources,
) -> Result<Vec<Candidate<'a>>, Vec<Diagnostic>> {
    let mut resolver = Resolver::default();
    let notes = resolver.notes(&TypedHead::default(), filter, sources)?;
    let range = resolver.range(&notes, catalogue);
    resolver.finish(range.map(|range| Candidate::but_for(&range.absent, &range.models, catalogue)))
}

impl<'a> Asked<'a> {
    /// The models side by side, each in the sizes that are there.
    pub(in crate::cli) fn shelf(&self, catalogue: &'a Catalogue) -> Shelf<'a> {
        let column =
            |model: &&'a Model| Column { model, candidates: Candidate::but_for(&self.absent, &[model], catalogue) };
        Shelf::new(self.models.iter().map(column).collect(), catalogue.shop.fit)
    }
}
