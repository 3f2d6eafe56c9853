//! What is known when a session begins.

use crate::catalogue::Catalogue;
use crate::fit::{Customer, Worn};
use crate::head::{Posterior, Reading};
use crate::journal::{Day, Head};
use crate::plan::Lead;
use crate::profile::Model;
use crate::unit::Id;

/// What is known when a session begins: names only, so that it can be written down.
#[derive(Debug, Clone, PartialEq)]
pub struct Opening {
    /// Today.
    pub day: Day,
    /// Seed of every draw.
    pub seed: u64,
    /// What is known of the head.
    pub head: Head,
    /// The models that may be tried.
    pub models: Vec<Id>,
    /// Sizes of them that are not there, as `(model, size)`.
    pub absent: Vec<(Id, Id)>,
    /// Helmets that the customer will put on, at most.
    pub tries: usize,
    /// Minutes that the customer has, where there is a limit.
    pub minutes: Option<f64>,
    /// Who says what to try next.
    pub lead: Lead,
}

/// Something that a session speaks of and the profiles don't have (any more).
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("the profiles have no {what} `{name}`")]
pub struct Unknown {
    /// What kind of thing.
    pub what: &'static str,
    /// Its name.
    pub name: String,
}

impl Opening {
    /// Whether everything that it speaks of stands in the profiles.
    ///
    /// # Errors
    ///
    /// The first thing that doesn't.
    pub fn check(&self, catalogue: &Catalogue) -> Result<(), Unknown> {
        catalogue
            .population(self.head.population.as_str())
            .ok_or_else(|| unknown("population", &self.head.population))?;
        for model in &self.models {
            model_is_known(catalogue, model)?;
        }
        self.head.wears.iter().try_for_each(|worn| size_is_known(catalogue, &worn.model, &worn.size))
    }

    /// The customer before anything was tried. What the profiles don't have is left out; [`Opening::check`] says what.
    #[must_use]
    pub fn customer<'a>(&self, catalogue: &'a Catalogue) -> Option<Customer<'a>> {
        let population = catalogue.population(self.head.population.as_str())?;
        let readings: Vec<_> = self.head.readings.iter().map(Reading::from).collect();
        let by_eye = self.head.shape.and_then(|at| catalogue.shop.by_eye.get(at).copied());
        let worn = self.head.wears.iter().filter_map(|worn| {
            let model = catalogue.model(worn.model.as_str())?;
            Some(Worn { model, size: worn.size.clone(), pads: None, reason: worn.reason })
        });
        Some(Customer {
            head: Posterior::new(population, &readings, by_eye),
            population: population.id.clone(),
            worn: worn.collect(),
            seed: self.seed,
            readings,
        })
    }
}

/// The model, if the profiles have it.
pub(super) fn model_is_known<'a>(catalogue: &'a Catalogue, model: &Id) -> Result<&'a Model, Unknown> {
    catalogue.model(model.as_str()).ok_or_else(|| unknown("model", model))
}

/// Whether the profiles have a model in a size.
pub(super) fn size_is_known(catalogue: &Catalogue, model: &Id, size: &Id) -> Result<(), Unknown> {
    let known = model_is_known(catalogue, model)?;
    known.size(size).map(|_| ()).ok_or_else(|| Unknown { what: "size", name: format!("{size} of {model}") })
}

fn unknown(what: &'static str, name: &Id) -> Unknown {
    Unknown { what, name: name.to_string() }
}
