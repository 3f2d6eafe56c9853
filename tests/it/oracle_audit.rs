//! An audit against customers who come in one by one.

mod plain;

use itertools::Itertools;
use lidladder::audit::{Question, Takes, Targets, audit};
use lidladder::catalogue::{Catalogue, Origin, load};
use lidladder::diag::Sources;
use lidladder::head::Measure;
use plain::{STEP, Sums, TAPE_SD, TRIES, one_by_one};
use rstest::rstest;
use std::sync::LazyLock;

static DEMO: LazyLock<Catalogue> =
    LazyLock::new(|| load(&Origin::BuiltIn, &mut Sources::default()).expect("the demo range is in order"));

const CUSTOMERS: usize = 1000;

fn question() -> Question<'static> {
    Question {
        population: DEMO.population("adults").expect("part of the demo range"),
        measured: vec![(Measure::Circumference, TAPE_SD)],
        reading_step: STEP,
        heads: CUSTOMERS,
        tries: TRIES,
        targets: Targets::AnyType,
        seed: 1,
    }
}

#[test]
fn totals_are_those_of_customers_one_by_one() {
    let plain = one_by_one(&DEMO, CUSTOMERS);
    let made = audit(&DEMO, &question(), &mut |_| {});
    compare("graph", plain.graph, made.graph);
    compare("plan", plain.plan, made.computed);
    assert_eq!(made.readings, plain.readings);
    let followed = made.rules.iter().map(|facts| facts.rule).collect_vec();
    assert_eq!(followed, plain.rules_used.keys().copied().collect_vec());
    for facts in &made.rules {
        let used = plain.rules_used[&facts.rule] / CUSTOMERS as f64;
        assert!((facts.used - used).abs() < 1e-12, "rule {}: {} instead of {used}", facts.rule, facts.used);
    }
}

fn compare(what: &str, sums: Sums, takes: Takes) {
    let pairs = [(sums.tries, takes.tries), (sums.minutes, takes.minutes), (sums.no_fit, takes.no_fit)];
    for (sum, quote) in pairs {
        let plain = sum / CUSTOMERS as f64;
        assert!((plain - quote.value).abs() < 1e-9, "{what}: {} instead of {plain}", quote.value);
    }
}

/// Another seed, other customers: figures differ by no more than both errors.
#[rstest]
#[case(2)]
#[case(3)]
fn another_seed_agrees_within_the_errors(#[case] seed: u64) {
    let [one, other] = [1, seed].map(|seed| audit(&DEMO, &Question { heads: 8000, seed, ..question() }, &mut |_| {}));
    // Not the graph: where two helmets rank nearly alike, another seed may begin with the other one, and from there the
    // shop's rules lead elsewhere.
    for (a, b) in [(one.computed, other.computed), (one.fixed_order, other.fixed_order)] {
        for (a, b) in [(a.tries, b.tries), (a.minutes, b.minutes), (a.no_fit, b.no_fit), (a.in_all, b.in_all)] {
            assert!((a.value - b.value).abs() <= a.error + b.error, "{a:?} and {b:?}");
        }
    }
    assert!(one.verified.saves.value > one.verified.saves.error, "five changes help customers who did not choose them");
}
