//! What the shop plans for a customer: with its profiles as it believes them.

use crate::catalogue::Catalogue;
use crate::fit::Customer;
use crate::head::{Measure, Population, Posterior, Reading};
use crate::journal::Head;
use crate::plan::{JudgedStep, Lead, Query, plan};
use crate::profile::Model;
use crate::unit::Id;
use std::collections::BTreeMap;

/// A shop that plans. Customers with the same readings get the same plan, made once.
#[derive(Debug, Clone)]
pub struct Fitter<'a> {
    catalogue: &'a Catalogue,
    population: &'a Population,
    models: Vec<&'a Model>,
    lead: Lead,
    known: BTreeMap<Key, Planned>,
}

/// What is written down of a head, to the last bit: measure, value and error of each reading, and the word for the shape.
type Key = (Vec<(Measure, u64, u64)>, Option<usize>);

/// A plan without what a simulation needs nothing of.
#[derive(Debug, Clone)]
pub(super) struct Planned {
    pub(super) first: Option<JudgedStep>,
    /// How probable it is said to be that the plan ends with a fit.
    pub(super) fit_in_the_end: f64,
    /// Model and size by number.
    pub(super) names: Vec<(Id, Id)>,
    /// What is listed beside the plan: a number, and how probable a fit is said to be.
    pub(super) listed: Vec<(usize, f64)>,
}

/// The seed of every plan: that of a program that nobody gave another.
const SEED: u64 = 1;

impl<'a> Fitter<'a> {
    /// A shop that expects heads of a population, and has only these models to try.
    #[must_use]
    pub fn new(catalogue: &'a Catalogue, population: &'a Population, models: Vec<&'a Model>, lead: Lead) -> Self {
        Self { catalogue, population, models, lead, known: BTreeMap::new() }
    }

    /// How many plans were made.
    #[must_use]
    pub fn plans(&self) -> usize {
        self.known.len()
    }

    /// The plan for what is written down of a head.
    pub(super) fn plan(&mut self, head: &Head) -> &Planned {
        let key = (
            head.readings.iter().map(|read| (read.measure, read.value.to_bits(), read.sd.to_bits())).collect(),
            head.shape,
        );
        let Self { catalogue, population, models, lead, known } = self;
        known.entry(key).or_insert_with(|| made(catalogue, population, models, *lead, head))
    }
}

fn made<'a>(
    catalogue: &'a Catalogue,
    population: &'a Population,
    models: &[&'a Model],
    lead: Lead,
    head: &Head,
) -> Planned {
    let readings: Vec<Reading> = head.readings.iter().map(Reading::from).collect();
    let eye = head.shape.and_then(|at| catalogue.shop.by_eye.get(at).copied());
    let customer = Customer {
        head: Posterior::new(population, &readings, eye),
        readings,
        population: population.id.clone(),
        worn: Vec::new(),
        seed: SEED,
    };
    let tries = catalogue.shop.session.tries;
    let query = Query { customer, models: models.to_vec(), absent: Vec::new(), tries, minutes: None, lead };
    let plan = plan(catalogue, &query);
    Planned {
        first: plan.first,
        fit_in_the_end: (1.0 - plan.totals.no_fit.value).clamp(0.0, 1.0),
        names: plan.candidates.iter().map(|c| (c.model.id.clone(), c.size.label.clone())).collect(),
        listed: plan.ranking.iter().map(|ranked| (ranked.candidate, ranked.fit.value)).collect(),
    }
}
