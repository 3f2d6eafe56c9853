//! Small journals against plain sums over every possible helmet and many heads, written down once more from
//! docs/method.md.

use super::{demo, id, learned};
use lidladder::catalogue::Catalogue;
use lidladder::fit::{Candidate, foam};
use lidladder::head::{Measure, Particles, Population, Posterior, Reading, ellipse_perimeter};
use lidladder::journal::{Day, Head, Read, Record, Round};
use lidladder::learn::Belief;
use lidladder::profile::{Axis, Bands, Measurer, Reason, Tool};
use rstest::rstest;

const HEADS: usize = 1024;
const STEPS: i32 = 8;

/// A try with the standard pads. The errors of the readings are none of the shop's, so that nobody learns them.
fn record(
    catalogue: &Catalogue,
    customer: u64,
    number: u32,
    helmet: (&str, &str),
    head: [f64; 3],
    reason: Option<Reason>,
) -> Record {
    let (model, size) = helmet;
    let known = catalogue.model(model).expect("part of the demo range");
    let (_, known) = known.sizes().find(|(_, known)| known.label.as_str() == size).expect("a size of it");
    let measures = [Measure::Circumference, Measure::Length, Measure::Breadth];
    let readings = measures.into_iter().zip(head).map(|(measure, value)| Read {
        measure,
        value,
        sd: 2.25,
        by: Measurer::Staff,
        with: Tool::Tape,
    });
    Record {
        day: Day::new(2026, 3, 1).expect("a day"),
        customer,
        number,
        head: Head { population: id("adults"), readings: readings.collect(), shape: None, wears: Vec::new() },
        model: id(model),
        size: id(size),
        fit_probability: None,
        rounds: vec![Round { pads: known.standard, reason, minutes: 11.0 }],
    }
}

/// How probable a record is for each of some heads, in a helmet whose index and centre are so much larger than the
/// profile says. `taken` is the room that each head takes on the three axes.
fn probabilities(catalogue: &Catalogue, record: &Record, taken: &[[f64; 3]], (index, centre): (f64, f64)) -> Vec<f64> {
    let rules = &catalogue.shop.fit;
    let candidates = Candidate::of_models([catalogue.model(record.model.as_str()).expect("known")], catalogue);
    let candidate = candidates.iter().find(|known| known.size.label == record.size).expect("known");
    let mut nominal = candidate.nominal;
    nominal.shape_index += index;
    nominal.circumference += centre;
    let made_for = nominal.dimensions(rules.outline);
    let foam = [0, 1, 2].map(|axis| foam(&record.rounds[0].pads, Axis::ALL[axis]));
    let m = catalogue.shop.misreport;
    let of_head = |taken: &[f64; 3]| {
        let class = |axis: usize, bands: Bands| {
            let strain = rules.ideal + (taken[axis] - made_for[axis]) / foam[axis];
            i8::from(strain > bands.tight_above) - i8::from(strain < bands.light_below)
        };
        let truth = Reason::from_direction([class(0, rules.head), class(1, rules.head), class(2, rules.cheeks)]);
        match (truth, record.rounds[0].reason) {
            (None, None) => 1.0,
            (None, Some(_)) | (Some(_), None) => m / 10.0,
            (Some(truth), Some(heard)) if truth == heard => 1.0 - m,
            _ => m / 9.0,
        }
    };
    taken.iter().map(of_head).collect()
}

/// Possible helmets: departures of index and centre with their prior.
fn helmets(catalogue: &Catalogue, model: &str) -> Vec<((f64, f64), f64)> {
    let candidates = Candidate::of_models([catalogue.model(model).expect("known")], catalogue);
    let error = candidates[0].error;
    let z = |k: i32| 4.5 * f64::from(k) / f64::from(STEPS);
    let pairs = (-STEPS..=STEPS).flat_map(|i| (-STEPS..=STEPS).map(move |j| (z(i), z(j))));
    let point = |(a, b): (f64, f64)| ((a * error.shape_index, b * error.centre), (-0.5 * (a * a + b * b)).exp());
    pairs.map(point).collect()
}

/// The room that heads of a customer take: hair and a full outline are spread over length and breadth.
fn heads(catalogue: &Catalogue, population: &Population, record: &Record) -> Vec<[f64; 3]> {
    let outline = catalogue.shop.fit.outline;
    let reading = |read: &Read| Reading { measure: read.measure, value: read.value, sd: read.sd };
    let readings: Vec<Reading> = record.head.readings.iter().map(reading).collect();
    let drawn = Particles::draw(&Posterior::new(population, &readings, None), HEADS, 77, 5);
    let taken = |at: usize| {
        let [c, l, b, w] = drawn.head(at).to_array();
        let excess = outline.excess_share * (c - outline.factor * ellipse_perimeter(l, b)) / std::f64::consts::PI;
        [l + excess, b + excess, w]
    };
    (0..HEADS).map(taken).collect()
}

fn belief(weighted: &[(f64, f64)]) -> Belief {
    let total: f64 = weighted.iter().map(|(weight, _)| weight).sum();
    let mean = weighted.iter().map(|(weight, value)| weight * value).sum::<f64>() / total;
    let variance = weighted.iter().map(|(weight, value)| weight * (value - mean).powi(2)).sum::<f64>() / total;
    Belief { mean, sd: variance.sqrt() }
}

/// Close, with the sampling error of some hundred heads in mind.
#[track_caller]
fn is_close(found: Belief, plain: Belief, prior: f64) {
    assert!((found.mean - plain.mean).abs() < 0.08 * prior, "{found:?} {plain:?}");
    assert!((found.sd / plain.sd - 1.0).abs() < 0.08, "{found:?} {plain:?}");
}

#[rstest]
#[case(&[([575.0, 190.0, 158.0], None)])]
#[case(&[([575.0, 190.0, 158.0], Some(Reason::TooOval)), ([572.0, 199.0, 150.0], None)])]
#[case(&[([570.0, 188.0, 158.0], None), ([580.0, 194.0, 158.0], Some(Reason::TemplesPress)), ([566.0, 196.0, 147.0], Some(Reason::LooseSides)), ([573.0, 193.0, 152.0], None)])]
fn one_model_is_learned_as_by_plain_sums(#[case] tried: &[([f64; 3], Option<Reason>)]) {
    let catalogue = demo();
    let helmet = ("quorrie-plain", "M");
    let records =
        (1..).zip(tried).map(|(customer, (head, reason))| record(&catalogue, customer, 1, helmet, *head, *reason));
    let records: Vec<Record> = records.collect();
    let found = learned(&catalogue, std::slice::from_ref(&records));
    let population = found.population.own.as_ref().expect("people");
    let mut helmets = helmets(&catalogue, helmet.0);
    for record in &records {
        let heads = heads(&catalogue, population, record);
        for (departure, weight) in &mut helmets {
            *weight *= probabilities(&catalogue, record, &heads, *departure).iter().sum::<f64>();
        }
    }
    let index: Vec<_> = helmets.iter().map(|((index, _), weight)| (*weight, *index)).collect();
    let centre: Vec<_> = helmets.iter().map(|((_, centre), weight)| (*weight, *centre)).collect();
    let model = found.models.iter().find(|model| model.id.as_str() == helmet.0).unwrap();
    let written = catalogue.model(helmet.0).unwrap().interior.shape_index;
    let away = Belief { mean: model.index[1].mean - written, ..model.index[1] };
    is_close(away, belief(&index), model.index[0].sd);
    is_close(model.shells[0].centre[1], belief(&centre), model.shells[0].centre[0].sd);
}

/// Three customers, one of whom ties the two models together.
#[test]
fn two_models_that_share_a_customer_are_learned_as_by_plain_sums() {
    let catalogue = demo();
    let helmets_tried = [("quorrie-plain", "M"), ("umberlow-furrow", "M")];
    let shared = [574.0, 189.0, 159.0];
    let records = vec![
        record(&catalogue, 1, 1, helmets_tried[0], shared, Some(Reason::TemplesPress)),
        record(&catalogue, 1, 2, helmets_tried[1], shared, Some(Reason::TooOval)),
        record(&catalogue, 2, 1, helmets_tried[0], [573.0, 191.0, 156.0], None),
        record(&catalogue, 3, 1, helmets_tried[1], [570.0, 193.0, 153.0], Some(Reason::LooseFrontToBack)),
    ];
    let found = learned(&catalogue, std::slice::from_ref(&records));
    let population = found.population.own.as_ref().expect("people");
    let grids = helmets_tried.map(|(model, _)| helmets(&catalogue, model));
    // By record and possible helmet, head by head.
    let tables: Vec<Vec<Vec<f64>>> = records
        .iter()
        .map(|record| {
            let heads = heads(&catalogue, population, record);
            let grid = &grids[usize::from(record.model.as_str() != helmets_tried[0].0)];
            grid.iter().map(|(departure, _)| probabilities(&catalogue, record, &heads, *departure)).collect()
        })
        .collect();
    let alone = |record: usize, at: usize| tables[record][at].iter().sum::<f64>();
    let mut sums = grids.clone().map(|grid| vec![0.0; grid.len()]);
    for (i, (_, first)) in grids[0].iter().enumerate() {
        for (j, (_, second)) in grids[1].iter().enumerate() {
            let both: f64 = tables[0][i].iter().zip(&tables[1][j]).map(|(a, b)| a * b).sum();
            let weight = first * second * both * alone(2, i) * alone(3, j);
            sums[0][i] += weight;
            sums[1][j] += weight;
        }
    }
    for (k, (name, _)) in helmets_tried.iter().enumerate() {
        let model = found.models.iter().find(|model| model.id.as_str() == *name).unwrap();
        let written = catalogue.model(name).unwrap().interior.shape_index;
        let weighted = |of: fn(&(f64, f64)) -> f64| -> Vec<(f64, f64)> {
            sums[k].iter().zip(&grids[k]).map(|(weight, (departure, _))| (*weight, of(departure))).collect()
        };
        let away = Belief { mean: model.index[1].mean - written, ..model.index[1] };
        is_close(away, belief(&weighted(|departure| departure.0)), model.index[0].sd);
        let shell = model.shells.iter().find(|shell| shell.tries > 0).unwrap();
        is_close(shell.centre[1], belief(&weighted(|departure| departure.1)), shell.centre[0].sd);
    }
}
