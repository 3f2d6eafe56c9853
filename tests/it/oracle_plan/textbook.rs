//! Small problems whose best plan somebody has published.

use super::{NEVER_GIVE_UP, best, deaf, first_path, flat, near, order_cost};
use itertools::Itertools;
use lidladder::plan::{Effort, Fold, Problem, solve};

/// Troubleshooting, a textbook case (memory, recomputed): four faults, three actions that each cure two of them.
fn troubleshooting() -> Problem {
    let cures = |faults: [usize; 2]| (1..=4).map(|fault| u8::from(!faults.contains(&fault))).collect();
    flat(vec![0.20, 0.25, 0.40, 0.15], vec![cures([1, 2]), cures([2, 3]), cures([3, 4])], &[1.0; 3], 1)
}

#[test]
fn troubleshooting_starts_with_the_third_action() {
    let problem = troubleshooting();
    let solution = best(&problem);
    near("the best order", solution.cost, 1.45);
    // After the third and the first action nothing is left for the second to cure.
    assert_eq!(first_path(solution.plan.as_ref()), [2, 0]);
    let costs =
        (0..3).permutations(3).map(|order| order_cost(&problem, &order)).sorted_by(f64::total_cmp).collect_vec();
    for (found, printed) in costs.iter().zip([1.45, 1.50, 1.55, 1.55, 1.65, 1.70]) {
        near("an order", *found, printed);
    }
    near("greedy, by probability, starts with the second", order_cost(&problem, &[1, 0, 2]), 1.50);
}

/// Where only "failed" is heard, folding all reasons into one branch changes nothing.
#[test]
fn folding_everything_is_the_same_as_hearing_nothing() {
    let mut problem = troubleshooting();
    problem.terms.fold = Fold::ALL;
    near("troubleshooting", solve(&problem, Effort::WHOLE).cost, 1.45);
}

/// The optimal binary search tree of Cormen, Leiserson, Rivest and Stein, Introduction to Algorithms, 15.5
/// (memory, recomputed). A key is a state that its own candidate fits; a gap between keys is a state that none
/// fits, but every try says on which side of its key the gap lies.
#[test]
fn a_search_tree_of_keys_and_gaps() {
    let (keys, gaps) = ([0.15, 0.10, 0.05, 0.10, 0.20], [0.05, 0.10, 0.05, 0.05, 0.05, 0.10]);
    // Gap 0, key 0, gap 1, key 1, ... gap 5: key k stands at place 2 k + 1.
    let weight = gaps.iter().copied().interleave(keys).collect_vec();
    let side = |key: usize, place: usize| match place.cmp(&(2 * key + 1)) {
        std::cmp::Ordering::Equal => 0,
        std::cmp::Ordering::Greater => 1,
        std::cmp::Ordering::Less => 2,
    };
    let outcome = (0..5).map(|key| (0..11).map(|place| side(key, place)).collect()).collect();
    let solution = best(&flat(weight, outcome, &[1.0; 5], 2));
    // Nothing fits a gap: whoever falls into one goes without at the end, 0.40 of all, in every plan. The plan
    // ends as soon as only gaps are left, so the rest is exactly the expected number of tries.
    near("expected tries", solution.cost - NEVER_GIVE_UP * gaps.iter().sum::<f64>(), 2.35);
    near("with one more for each gap, as printed", 2.35 + gaps.iter().sum::<f64>(), 2.75);
    let root = solution.plan.unwrap().candidate;
    assert_eq!(root, 1, "the second key is the root of the printed tree");
}

/// Independent items with p .3, .5, .2, .6 and costs 2, 5, 1, 8: the best order is by probability over cost
/// (Mitten 1960). A state is which of the four would work; "failed" tells nothing about the others.
#[test]
fn independent_items_go_by_the_ratio_rule() {
    let chance = [0.3, 0.5, 0.2, 0.6];
    let works = |state: usize, item: usize| state >> item & 1 == 1;
    let share = |state: usize| -> f64 {
        chance.iter().enumerate().map(|(item, p)| if works(state, item) { *p } else { 1.0 - p }).product()
    };
    let outcome = (0..4).map(|item| (0..16).map(|state| u8::from(!works(state, item))).collect()).collect();
    let problem = flat((0..16).map(share).collect(), outcome, &[2.0, 5.0, 1.0, 8.0], 1);

    let solution = best(&problem);
    near("the best order", solution.cost - NEVER_GIVE_UP * share(0), 7.64);
    assert_eq!(first_path(solution.plan.as_ref()), [2, 0, 1, 3]);
    let costs =
        (0..4).permutations(4).map(|order| order_cost(&problem, &order)).sorted_by(f64::total_cmp).collect_vec();
    near("the best, plainly", costs[0], 7.64);
    near("the next best", costs[1], 7.74);
    near("the worst", costs[23], 10.54);
}

/// Hearing why can only help.
#[test]
fn an_order_is_never_better_than_a_tree() {
    let problem = flat(vec![0.5, 0.3, 0.2], vec![vec![0, 1, 2], vec![1, 0, 1], vec![2, 1, 0]], &[1.0, 2.0, 3.0], 2);
    let (tree, order) = (best(&problem).cost, best(&deaf(problem)).cost);
    assert!(tree < order, "{tree} against {order}");
}
