//! A profile from experience against closed forms, against the tables of `fit`, and against helmets whose shape is
//! known.

mod closed_forms;
mod grid;
mod recovery;
mod tables;

use lidladder::catalogue::{Catalogue, Origin, load};
use lidladder::diag::Sources;
use lidladder::fit::PadSet;
use lidladder::head::{Population, Posterior, Reading};
use lidladder::profile::Reason;
use lidladder::sketch::{Experience, NewSize, Normal, PadSource, Saying, Statement, Tried};
use lidladder::unit::Id;

fn demo() -> Catalogue {
    load(&Origin::BuiltIn, &mut Sources::default()).expect("the demo range is in order")
}

/// A label that tests use.
fn id(text: &str) -> Id {
    Id::try_from(text).expect("a name")
}

/// A statement of the shape that means just this.
fn meant(mean: f64, sd: f64) -> Statement<'static> {
    Statement { said: Saying::Range(1, None), index: Normal { mean, sd } }
}

fn size(label: &str, circumference: (f64, f64), standard: PadSet) -> NewSize<'static> {
    NewSize { label: id(label), circumference, standard, given: Vec::new(), source: PadSource::Range(1, None) }
}

fn tried(population: &Population, size: usize, readings: Vec<Reading>, reason: Option<Reason>) -> Tried {
    Tried { size, head: Posterior::new(population, &readings, None), readings, mounted: None, reason }
}

fn experience<'a>(sizes: Vec<NewSize<'a>>, statements: Vec<Statement<'a>>, tried: Vec<Tried>) -> Experience<'a> {
    Experience { sizes, statements, tried, population: id("adults"), seed: 1 }
}
