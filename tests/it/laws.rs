//! Laws that every fit and every plan obeys, on the demo range.

#![expect(clippy::unwrap_used, reason = "a helper of a test fails with its test")]

mod formulas;
mod leads;
mod mounted;
mod orders;
mod pads;
mod repeats;
mod seeds;
mod sketches;
mod sums;
mod tables;
mod trade;
mod verdicts;
mod weigh;
mod why;

use crate::oracle_plan::dice::Dice;
use lidladder::catalogue::{Catalogue, Origin, load};
use lidladder::diag::Sources;
use lidladder::fit::Customer;
use lidladder::head::{Dimensions, Measure, Particles, Population, Posterior, Reading};
use lidladder::plan::{Lead, Plan, Query, plan};
use lidladder::profile::Model;
use std::sync::LazyLock;

pub(crate) static RANGE: LazyLock<Catalogue> =
    LazyLock::new(|| load(&Origin::BuiltIn, &mut Sources::default()).expect("the demo range is in order"));

/// Readings by staff with the usual errors: tape 3 mm, caliper 1.5 mm (assumptions of the method).
const TAPE_SD: f64 = 3.0;
const CALIPER_SD: f64 = 1.5;

/// The shop's own customers.
fn population() -> &'static Population {
    RANGE.population(RANGE.shop.population.as_str()).unwrap()
}

fn tape(circumference: f64) -> Vec<Reading> {
    vec![Reading { measure: Measure::Circumference, value: circumference, sd: TAPE_SD }]
}

fn measured(circumference: f64, length: f64, breadth: f64) -> Vec<Reading> {
    let caliper = |measure, value| Reading { measure, value, sd: CALIPER_SD };
    let mut readings = tape(circumference);
    readings.extend([caliper(Measure::Length, length), caliper(Measure::Breadth, breadth)]);
    readings
}

fn customer(readings: Vec<Reading>, seed: u64) -> Customer<'static> {
    let head = Posterior::new(population(), &readings, None);
    Customer { head, readings, population: population().id.clone(), worn: Vec::new(), seed }
}

/// A plan over the whole range, as the shop makes it.
fn query(customer: Customer<'static>, lead: Lead) -> Query<'static> {
    let models = RANGE.models().iter().collect();
    Query { customer, models, absent: Vec::new(), tries: RANGE.shop.session.tries, minutes: None, lead }
}

fn plan_for(readings: Vec<Reading>, lead: Lead) -> Plan<'static> {
    plan(&RANGE, &query(customer(readings, 1), lead))
}

/// Tape readings of heads drawn from the shop's population.
fn sampled_tapes(count: usize) -> Vec<f64> {
    let heads = Particles::draw(&Posterior::new(population(), &[], None), count, 77, 0);
    let mut dice = Dice::new(12_345);
    heads.circumference.iter().map(|true_value| true_value + TAPE_SD * dice.normal()).collect()
}

/// Heads of any shape and size, far beyond what a population has.
fn any_head(dice: &mut Dice) -> Dimensions {
    Dimensions {
        circumference: 568.0 + 22.0 * dice.normal(),
        length: 195.0 + 8.0 * dice.normal(),
        breadth: 151.0 + 7.0 * dice.normal(),
        face_width: 138.0 + 8.0 * dice.normal(),
    }
}

/// The models with profiles that are right to the millimetre.
pub(crate) fn taken_at_their_word() -> Vec<Model> {
    let exact = |model: &Model| {
        let mut model = model.clone();
        model.interior.sd = Some(0.0);
        model.interior.centre_sd = Some(0.0);
        model
    };
    RANGE.models().iter().map(exact).collect()
}
