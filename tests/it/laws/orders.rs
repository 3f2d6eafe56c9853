//! A plan that listens to reasons against the best fixed order, which doesn't: judged on heads that chose neither.

use super::{RANGE, plan_for, sampled_tapes, tape};
use lidladder::fit::Quote;
use lidladder::plan::{JudgedStep, Lead, Source, Totals};

const HEADS: usize = 24;

/// Minutes, going without included.
fn cost(totals: Totals) -> Quote {
    let go_without = RANGE.shop.minutes.go_without;
    Quote {
        value: totals.minutes.value + go_without * totals.no_fit.value,
        error: totals.minutes.error + go_without * totals.no_fit.error,
    }
}

fn computed(step: &JudgedStep) -> bool {
    let mut next = step.branches.iter().filter_map(|branch| branch.next.as_ref());
    step.source == Source::Computed && step.rival.is_none() && next.all(computed)
}

/// The claim that the tool stands on: fewer helmets are put on, and less time is spent, than in the best fixed order.
#[test]
fn listening_to_reasons_pays() {
    let (mut tries, mut costs) = ([0.0; 2], [0.0; 2]);
    for circumference in sampled_tapes(HEADS) {
        let made = plan_for(tape(circumference), Lead::ComputedOnly);
        let (plan, order) = (cost(made.totals), cost(made.fixed_order));
        let room = plan.error + order.error;
        assert!(plan.value <= order.value + room, "at {circumference} mm: {plan:?} against {order:?}");
        for (k, totals) in [made.totals, made.fixed_order].into_iter().enumerate() {
            tries[k] += totals.tries.value;
            costs[k] += cost(totals).value;
        }
        assert!(made.first.as_ref().is_none_or(computed), "a rule in a plan that asks for none");
        assert!(made.optimality.cost >= made.optimality.lower - 1e-9, "{:?}", made.optimality);
    }
    assert!(tries[0] < tries[1], "tries: {tries:?}");
    assert!(costs[0] < costs[1], "minutes: {costs:?}");
}
