//! What is learned from journals against plain sums, and against simulated shops whose truth is known.

mod brute;
mod orders;
mod years;

use lidladder::catalogue::{Catalogue, Origin, load};
use lidladder::diag::Sources;
use lidladder::head::{Measure, Population};
use lidladder::journal::{Day, Record};
use lidladder::learn::{KeptApart, Learned, Question, learn};
use lidladder::plan::Lead;
use lidladder::profile::{Measurer, Tool};
use lidladder::simulate::{Fitter, Habits, Offset, Shape, Situation, Taken, World, simulate};
use lidladder::unit::Id;

fn demo() -> Catalogue {
    load(&Origin::BuiltIn, &mut Sources::default()).expect("the demo range is in order")
}

fn id(text: &str) -> Id {
    Id::try_from(text).expect("a name")
}

fn learned(catalogue: &Catalogue, journals: &[Vec<Record>]) -> Learned {
    let population = catalogue.population("adults").expect("part of the demo range");
    learn(catalogue, journals, &Question { population, kept_apart: KeptApart::Some, seed: 1 })
}

/// How the truth of a shop departs from what it believes.
#[derive(Debug, Clone, Copy, Default)]
struct Truth {
    /// Of the shape index of Wexmarsh One.
    index: f64,
    /// Of the misreport rate.
    misreport: f64,
    /// Of the error of the tape, mm.
    tape: f64,
    /// How often the tape is put on where nothing else is measured; 0 is once.
    tapes: usize,
    /// Of the mean circumference, mm; the other measures by a third of it.
    shift: f64,
}

/// The journal of a shop that has four models, so that plans are quick. A third of its customers have length and breadth
/// measured, too.
fn journal(catalogue: &Catalogue, truth: Truth, customers: u64, seed: u64) -> Vec<Record> {
    let shop = &catalogue.shop;
    let expected = catalogue.population("adults").expect("part of the demo range");
    let mut tape = Taken::as_assumed(shop, Measure::Circumference, Measurer::Staff, Tool::Tape, 10.0).expect("a line");
    tape.true_sd += truth.tape;
    let caliper = |measure| Taken::as_assumed(shop, measure, Measurer::Staff, Tool::Caliper, 5.0).expect("a line");
    let taken = vec![tape, caliper(Measure::Length), caliper(Measure::Breadth)];
    let situations = vec![
        Situation { share: 2.0, taken: vec![tape; truth.tapes.max(1)], shape: Shape::Unsaid },
        Situation { share: 1.0, taken, shape: Shape::Unsaid },
    ];
    let shifted = shifted(expected, truth.shift);
    let from = Day::new(2026, 1, 2).expect("a day");
    let habits =
        Habits { population: &shifted, situations, misreport: shop.misreport + truth.misreport, from, a_day: 2 };
    let mut world = World::as_written(catalogue);
    let model = catalogue.model("wexmarsh-one").expect("part of the demo range");
    world.set(&model.id, Offset { shape_index: truth.index, ..Offset::none(model) });
    let names = ["wexmarsh-one", "wexmarsh-two-flip", "umberlow-drove", "haspenfell-plum"];
    let models = names.iter().filter_map(|name| catalogue.model(name)).collect();
    let mut fitter = Fitter::new(catalogue, expected, models, Lead::ComputedOnly);
    let visits = simulate(&world, &habits, &mut fitter, customers, seed);
    visits.iter().flat_map(|visit| visit.records().cloned()).collect()
}

fn shifted(population: &Population, mm: f64) -> Population {
    let mut components = population.components().to_vec();
    for component in &mut components {
        for (mean, share) in component.heads.mean.iter_mut().zip([1.0, 1.0 / 3.0, 1.0 / 3.0, 1.0 / 3.0]) {
            *mean += share * mm;
        }
    }
    let Population { id, name, source, .. } = population.clone();
    Population::new(id, name, source, components).expect("people")
}
