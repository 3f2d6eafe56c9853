//! A ladder of sizes: one fits, the others are too tight or too loose, so every failure says which way to go. The
//! best plan is an optimal binary search tree (own construction).

use super::{best, brute, deaf, flat, near};
use itertools::Itertools;
use lidladder::plan::Problem;
use rstest::rstest;
use std::cmp::Ordering;

/// Candidate k fits state k, is too tight (1) above it and too loose (2) below it.
fn ladder(weight: Vec<f64>) -> Problem {
    let sizes = weight.len();
    let outcome = |size: usize, state: usize| match state.cmp(&size) {
        Ordering::Equal => 0,
        Ordering::Greater => 1,
        Ordering::Less => 2,
    };
    let table = (0..sizes).map(|size| (0..sizes).map(|state| outcome(size, state)).collect()).collect();
    flat(weight, table, &vec![1.0; sizes], 2)
}

fn uniform(sizes: u32) -> Vec<f64> {
    vec![1.0 / f64::from(sizes); usize::try_from(sizes).unwrap()]
}

/// The dynamic program over intervals of sizes, without gaps: total depth of the best search tree. With
/// [`Roots::Knuth`] only the roots between those of the two intervals that are one size shorter are looked at (Knuth, Acta
/// Informatica 1, 1971: that is enough, and takes the square of the sizes instead of the cube).
fn search_tree(weight: &[f64], roots: Roots) -> f64 {
    let sizes = weight.len();
    // `depth[from][to]`: the best over the sizes from..to, and `root[from][to]` its root.
    let mut depth = vec![vec![0.0_f64; sizes + 1]; sizes + 1];
    let mut root = vec![vec![0; sizes + 1]; sizes + 1];
    for (width, from) in (1..=sizes).flat_map(|width| (0..=sizes - width).map(move |from| (width, from))) {
        let to = from + width;
        let among = match roots {
            Roots::Knuth if width > 1 => root[from][to - 1]..=root[from + 1][to],
            _ => from..=to - 1,
        };
        let cost = |at: &usize| depth[from][*at] + depth[at + 1][to];
        root[from][to] = among.min_by(|a, b| cost(a).total_cmp(&cost(b))).unwrap();
        depth[from][to] = weight[from..to].iter().sum::<f64>() + cost(&root[from][to]);
    }
    depth[0][sizes]
}

/// Which roots are looked at.
#[derive(Clone, Copy)]
enum Roots {
    All,
    Knuth,
}

#[test]
fn a_ladder_of_five_with_most_in_the_middle() {
    let problem = ladder(vec![0.1, 0.2, 0.4, 0.2, 0.1]);
    near("with reasons", best(&problem).cost, 1.8);
    near("without", best(&deaf(problem)).cost, 2.3);
}

/// Without reasons the sizes are tried one by one: (n + 1) / 2.
#[rstest]
#[case(5, 2.2, 3.0)]
#[case(7, 17.0 / 7.0, 4.0)]
fn equal_sizes(#[case] sizes: u32, #[case] with_reasons: f64, #[case] without: f64) {
    let problem = ladder(uniform(sizes));
    near("with reasons", best(&problem).cost, with_reasons);
    near("without", best(&deaf(problem)).cost, without);
}

/// A balanced tree: the k-th node in it lies at depth floor(log2 k) + 1.
#[rstest]
fn equal_sizes_make_a_balanced_tree(#[values(1, 2, 3, 4, 6, 9, 12, 15)] sizes: u32) {
    let balanced = (1..=sizes).map(|k| f64::from(k.ilog2() + 1)).sum::<f64>() / f64::from(sizes);
    near("the closed form and the dynamic program", search_tree(&uniform(sizes), Roots::All), balanced);
    near("the planner", best(&ladder(uniform(sizes))).cost, balanced);
}

/// Any weights, even and steep: the planner finds what both dynamic programs over intervals find.
#[rstest]
fn unequal_sizes_make_the_best_search_tree(
    #[values(2, 5, 8, 11, 14)] sizes: usize,
    #[values(1.0, 3.0, 8.0)] steepness: f64,
) {
    for seed in 0..12 {
        let mut dice = super::dice::Dice::new(seed);
        let raw = (0..sizes).map(|_| dice.between(0.05, 1.0).powf(steepness)).collect_vec();
        let total: f64 = raw.iter().sum();
        let weight = raw.into_iter().map(|share| share / total).collect_vec();
        let tree = search_tree(&weight, Roots::Knuth);
        near("both dynamic programs", search_tree(&weight, Roots::All), tree);
        near("the planner", best(&ladder(weight)).cost, tree);
    }
}

/// Misreported, a ladder is no search tree any more; the plain solver knows what it costs.
#[rstest]
fn misreported_sizes_cost_what_the_plain_solver_finds(
    #[values(3, 4, 5)] sizes: usize,
    #[values(0.02, 0.08, 0.3)] misreport: f64,
) {
    for seed in 0..4 {
        let mut dice = super::dice::Dice::new(seed);
        let raw = (0..sizes).map(|_| dice.between(0.05, 1.0)).collect_vec();
        let total: f64 = raw.iter().sum();
        let mut problem = ladder(raw.into_iter().map(|share| share / total).collect());
        problem.terms.misreport = misreport;
        problem.terms.go_without = 6.0;
        near("the planner", best(&problem).cost, brute::cost(&problem));
    }
}
