//! What a fitter knows and plans for customers with the same readings.

use super::Question;
use super::customers::{Group, terms};
use super::follow::Session;
use super::shelf::Shelf;
use crate::fit::{Customer, HeadSet};
use crate::head::{Measure, PARTICLES, Posterior, Reading};
use crate::plan::{Lead, Problem, Query, Step, draft};
use crate::profile::Reason;
use itertools::Itertools;

/// Heads that a fitter's knowledge is made of while a graph is followed: they only say which size a target is handed
/// out in. The plan is chosen on as many as ever.
const CHOOSING: usize = PARTICLES / 4;

pub(super) struct Known {
    chooser: Problem,
    first: Option<usize>,
    tape: f64,
    pub(super) plan: Option<Step>,
    pub(super) fixed_order: Option<Step>,
    /// By candidate of the two plans: its place on the shelf.
    pub(super) place: Vec<usize>,
}

impl Known {
    pub(super) fn of(shelf: &Shelf<'_>, question: &Question<'_>, readings: &[Reading]) -> Self {
        let catalogue = shelf.catalogue;
        let customer = Customer {
            head: Posterior::new(question.population, readings, None),
            readings: readings.to_vec(),
            population: question.population.id.clone(),
            worn: Vec::new(),
            seed: question.seed,
        };
        let heads = HeadSet::draw(catalogue, &customer, CHOOSING, 0);
        let tried = heads.try_all(catalogue, &customer, &shelf.candidates.iter().collect_vec());
        let tape = readings.iter().find(|reading| reading.measure == Measure::Circumference);
        let tape = tape.map_or_else(|| heads.heads.moments().mean[0], |reading| reading.value);
        let chooser = Problem {
            weight: heads.heads.weight,
            outcome: tried.reason,
            minutes: tried.minutes,
            reasons: u8::try_from(Reason::GEOMETRIC).unwrap_or(u8::MAX),
            terms: terms(question, shelf),
        };
        let models = catalogue.models().iter().collect();
        let lead = Lead::ComputedOnly;
        let query = Query { customer, models, absent: Vec::new(), tries: question.tries, minutes: None, lead };
        let draft = draft(catalogue, &query);
        let place = draft.candidates.iter().filter_map(|candidate| shelf.place(candidate)).collect_vec();
        Self {
            chooser,
            first: draft.best.map(|best| place[best]),
            tape,
            plan: draft.plan,
            fixed_order: draft.fixed_order,
            place,
        }
    }

    pub(super) fn session<'s>(&'s self, shelf: &'s Shelf<'s>, group: &'s Group) -> Session<'s> {
        Session { shelf, chooser: &self.chooser, group, first: self.first, tape: self.tape }
    }
}
