//! Helmets whose shape is known, customers drawn from the population, their reports with misreports: the sketch finds
//! the shape again, as often as it says.

use super::{demo, experience, size, tried};
use crate::oracle_plan::dice::Dice;
use lidladder::catalogue::Catalogue;
use lidladder::fit::{Candidate, verdict};
use lidladder::head::{Dimensions, Measure, Particles, Posterior, Reading};
use lidladder::profile::{Model, Reason};
use lidladder::sketch::{Fineness, NewSize, Pitch, Tried, sketch, statements, together};

/// Rough, but the same for truth and inference: enough to count how often an interval holds.
const ROUGH: Fineness = Fineness {
    index: Pitch { per_sd: 6.0, widest: 0.5, reach: 7.0 },
    offset: Pitch { per_sd: 2.0, widest: 2.0, reach: 4.0 },
    heads: 32,
};

/// How well so many simulated helmets were found again.
#[derive(Debug, Default)]
struct Found {
    /// Share of the helmets whose index lies in the interval of 80 %.
    held: f64,
    /// Root mean square error of the index, and root mean of the variance that was said.
    error: f64,
    said: f64,
    /// Root mean square error of the prior's mean.
    before: f64,
}

/// Simulates helmets with an index drawn from what is said, and `customers` for each.
fn recovered(shop: &Catalogue, helmets: usize, customers: usize, fineness: Fineness) -> Found {
    let said = statements(shop, &[], None, None);
    let prior = together(&said);
    let population = shop.population("adults").expect("part of the demo range");
    let heads = Particles::draw(&Posterior::new(population, &[], None), 4096, 99, 0);
    let mut dice = Dice::new(u64::try_from(1000 * customers + helmets).expect("small"));
    let mut found = Found::default();
    for _ in 0..helmets {
        let index = prior.mean + prior.sd * dice.normal();
        let offset = shop.shop.profile_errors.by_eye.centre * dice.normal();
        let labels = labelled(shop);
        let truth = model(shop, index, offset);
        let candidates = Candidate::of_models([&truth], shop);
        let tries = (0..customers).map(|_| {
            let head = heads.head(dice.below(heads.len()));
            let readings = measured(head, &mut dice);
            let near = |a: &&usize, b: &&usize| {
                let distance = |at: usize| (labels[at].centre() - readings[0].value).abs();
                distance(**a).total_cmp(&distance(**b))
            };
            let at = *(0..labels.len()).collect::<Vec<_>>().iter().min_by(near).expect("it has sizes");
            let effective = shop.shop.fit.outline.effective(head);
            let true_reason = verdict(&candidates[at], effective, &shop.shop.fit).best().reason;
            tried(population, at, readings, reported(true_reason, shop.shop.misreport, &mut dice))
        });
        let tries: Vec<Tried> = tries.collect();
        let made = sketch(shop, &experience(labels.clone(), said.clone(), tries), fineness);
        let count = f64::from(u32::try_from(helmets).expect("some thousand"));
        found.held += f64::from(u8::from(made.interval.0 <= index && index <= made.interval.1)) / count;
        found.error += (made.index.mean.value - index).powi(2) / count;
        found.said += made.index.sd.value.powi(2) / count;
        found.before += (prior.mean - index).powi(2) / count;
    }
    Found { error: found.error.sqrt(), said: found.said.sqrt(), before: found.before.sqrt(), ..found }
}

/// The sizes as a fitter gives them: labels and standard pads of a model that is there.
fn labelled(shop: &Catalogue) -> Vec<NewSize<'static>> {
    let one = shop.model("wexmarsh-one").expect("part of the demo range");
    one.sizes().map(|(_, known)| size(known.label.as_str(), known.circumference, known.standard)).collect()
}

/// The helmet as it is in truth: its standard pads alone.
fn model(shop: &Catalogue, index: f64, offset: f64) -> Model {
    let mut model = shop.model("wexmarsh-one").expect("part of the demo range").clone();
    model.interior.shape_index = index;
    for shell in &mut model.shells {
        shell.pads.clear();
        for size in &mut shell.sizes {
            size.circumference = (size.circumference.0 + offset, size.circumference.1 + offset);
        }
    }
    model
}

/// Tape and caliper, by staff: errors of 3 and 1.5 mm (assumptions of the shop's file).
fn measured(head: Dimensions, dice: &mut Dice) -> Vec<Reading> {
    let mut reading = |measure, value: f64, sd: f64| Reading { measure, value: value + sd * dice.normal(), sd };
    vec![
        reading(Measure::Circumference, head.circumference, 3.0),
        reading(Measure::Length, head.length, 1.5),
        reading(Measure::Breadth, head.breadth, 1.5),
    ]
}

/// What is said: in `misreport` of the cases another of the eleven outcomes.
fn reported(truth: Option<Reason>, misreport: f64, dice: &mut Dice) -> Option<Reason> {
    if dice.unit() >= misreport {
        return truth;
    }
    let all = std::iter::once(None).chain(Reason::geometric().iter().copied().map(Some));
    let others: Vec<Option<Reason>> = all.filter(|outcome| *outcome != truth).collect();
    dice.one_of(&others)
}

/// 80 % of 240 helmets are 192, with a standard deviation of 6.2: outside of 72 to 88 % it is no chance (3 sd).
#[test]
fn eight_in_ten_known_shapes_lie_where_the_sketch_says() {
    let shop = demo();
    let [two, eight] = [2, 8].map(|customers| recovered(&shop, 240, customers, ROUGH));
    for found in [&two, &eight] {
        assert!((0.72..=0.88).contains(&found.held), "{found:?}");
        let honest = found.error / found.said;
        assert!((0.85..=1.15).contains(&honest), "the error is as large as it is said to be: {found:?}");
    }
    assert!(two.error < 0.95 * two.before && eight.error < 0.8 * two.error, "{two:?} {eight:?}");
    assert!(eight.said < 0.8 * two.said, "{two:?} {eight:?}");
}

/// The figures of docs/method.md.
#[test]
#[ignore = "takes some minutes; cargo test --test it known_shapes -- --ignored --nocapture"]
#[expect(clippy::print_stdout, reason = "its figures are wanted")]
fn known_shapes_by_the_number_of_customers() {
    let shop = demo();
    let fine = Fineness {
        index: Pitch { per_sd: 8.0, widest: 0.3, reach: 7.0 },
        offset: Pitch { per_sd: 3.0, widest: 1.0, reach: 5.0 },
        heads: 64,
    };
    for customers in [1, 2, 4, 8, 16, 32] {
        let found = recovered(&shop, 1000, customers, fine);
        println!("{customers} customers: {found:?}");
        assert!((0.75..=0.85).contains(&found.held), "{found:?}");
    }
}
