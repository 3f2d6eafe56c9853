//! Four (or more) equal states, one item that fits each, and one item that fits none and names the state: the
//! best plan asks first. Own construction; greedy by fit never asks.

use super::{best, deaf, flat, near, order_cost};
use itertools::Itertools;
use lidladder::plan::{Problem, Terms};
use rstest::rstest;

/// `states` items that fit one state each, and behind them the one that names the state.
fn naming(states: u8) -> Problem {
    let mut outcome = (0..states).map(|item| (0..states).map(|state| u8::from(state != item)).collect()).collect_vec();
    outcome.push((1..=states).collect());
    let weight = vec![1.0 / f64::from(states); usize::from(states)];
    flat(weight, outcome, &vec![1.0; usize::from(states) + 1], states)
}

/// Asking costs one try and the right item another, whatever the number of states.
#[rstest]
#[case(4)]
#[case(8)]
#[case(16)]
#[case(32)]
fn asking_first_takes_two_tries(#[case] states: u8) {
    let solution = best(&naming(states));
    near("two tries", solution.cost, 2.0);
    let plan = solution.plan.unwrap();
    assert_eq!(plan.candidate, usize::from(states), "the one that names the state");
    for (reports, next) in plan.branches {
        assert_eq!(next.map(|step| step.candidate + 1), reports.single().map(usize::from), "then the right one");
    }
}

/// A fixed order can't use the name: (1 + 2 + ... + n) / n, which greedy by fit takes as well.
#[rstest]
#[case(4, 2.5)]
#[case(8, 4.5)]
#[case(12, 6.5)]
fn a_fixed_order_goes_through_them_all(#[case] states: u8, #[case] expected: f64) {
    let problem = naming(states);
    near("the order of their numbers", order_cost(&problem, &(0..usize::from(states)).collect_vec()), expected);
    near("the best order", best(&deaf(problem)).cost, expected);
}

/// Two tries, and the name is wrong at a rate m; going without costs g. Asking first costs 2 + m g. Trying two items
/// costs 1 + (n - 1) / n + g (n - 2) / n, one of them 1 + g (n - 1) / n, none g: the best plan is the cheapest. (Up to
/// m = (n - 1) / n the name that was said is at least as probable as any other.)
#[rstest]
fn a_name_that_may_be_wrong_is_asked_for_while_it_pays(
    #[values(3, 4, 8, 14)] states: u8,
    #[values(0.0, 0.05, 0.2, 0.5, 0.6)] misreport: f64,
    #[values(1.5, 4.0, 20.0)] go_without: f64,
) {
    let mut problem = naming(states);
    problem.terms = Terms { misreport, go_without, tries: 2, ..problem.terms };
    let n = f64::from(states);
    let two_items = 1.0 + (n - 1.0) / n + go_without * (n - 2.0) / n;
    let one_item = 1.0 + go_without * (n - 1.0) / n;
    let expected = [2.0 + misreport * go_without, two_items, one_item, go_without].into_iter().fold(f64::MAX, f64::min);
    near("the best plan", best(&problem).cost, expected);
}
