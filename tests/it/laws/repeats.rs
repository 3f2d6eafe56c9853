//! The same question has the same answer, in whatever order it is put.

use super::{RANGE, customer, query, tape};
use itertools::Itertools;
use lidladder::plan::{JudgedStep, Lead, Plan, plan};

#[test]
fn the_same_query_gives_the_same_plan() {
    let query = query(customer(tape(583.0), 9), Lead::ShopFirst);
    assert_eq!(plan(&RANGE, &query), plan(&RANGE, &query));
}

#[test]
fn the_order_of_the_models_changes_nothing() {
    let forward = query(customer(tape(566.0), 4), Lead::ShopFirst);
    let mut mixed = forward.clone();
    mixed.models.reverse();
    mixed.models.rotate_left(4);
    let (a, b) = (plan(&RANGE, &forward), plan(&RANGE, &mixed));
    assert_eq!(figures(&a), figures(&b));
    assert_eq!(a.head, b.head);
    let steps = |made: &Plan<'_>| {
        let mut lines = Vec::new();
        told(made, made.first.as_ref().expect("something is worth a try"), &mut lines);
        lines
    };
    assert_eq!(steps(&a), steps(&b), "the plan, step by step");
    for (a, b) in [
        (a.totals.tries, b.totals.tries),
        (a.totals.minutes, b.totals.minutes),
        (a.totals.no_fit, b.totals.no_fit),
        (a.fixed_order.tries, b.fixed_order.tries),
        (a.fixed_order.minutes, b.fixed_order.minutes),
    ] {
        assert!((a.value - b.value).abs() < 1e-9, "{a:?} and {b:?}");
    }
    assert!((a.optimality.cost - b.optimality.cost).abs() < 1e-9, "{:?} and {:?}", a.optimality, b.optimality);
    assert!((a.optimality.lower - b.optimality.lower).abs() < 1e-9, "{:?} and {:?}", a.optimality, b.optimality);
}

/// The ranking as a set: who, and how often it fits.
fn figures(made: &Plan<'_>) -> Vec<(String, String)> {
    let line = |candidate: usize, fit: f64| (made.candidates[candidate].title(), format!("{fit:.9}"));
    made.ranking.iter().map(|ranked| line(ranked.candidate, ranked.fit.value)).sorted().collect()
}

fn told(made: &Plan<'_>, step: &JudgedStep, lines: &mut Vec<String>) {
    let title = made.candidates[step.candidate].title();
    lines.push(format!("{title} {:?} {:.9} {:.9}", step.source, step.reach, step.fit.value));
    for branch in &step.branches {
        lines.push(format!("{:?} {:.9}", branch.reasons, branch.probability.value));
        if let Some(next) = &branch.next {
            told(made, next, lines);
        }
    }
}
