//! The search against the plain solver, on thousands of small problems.

use super::{brute, instances};
use lidladder::plan::{Effort, Fold, Problem, solve};

const PROBLEMS: u64 = 1600;

/// Efforts that leave something out, each in another way.
const SMALL: [Effort; 5] = [
    Effort { look_ahead: 0, breadth: usize::MAX, work: u64::MAX },
    Effort { look_ahead: 1, breadth: usize::MAX, work: u64::MAX },
    Effort { look_ahead: 2, breadth: 2, work: u64::MAX },
    Effort { look_ahead: usize::MAX, breadth: 1, work: u64::MAX },
    Effort { look_ahead: usize::MAX, breadth: usize::MAX, work: 30 },
];

/// Ways to share branches: by the probability from the start, by the share of the failures, and all.
const FOLDS: [Fold; 4] =
    [Fold { below: 0.05, share: 0.0 }, Fold { below: 0.0, share: 0.4 }, Fold { below: 0.2, share: 0.1 }, Fold::ALL];

const SLACK: f64 = 1e-9;

#[test]
fn with_all_effort_it_finds_the_best_plan_and_proves_it() {
    let mut plans = 0;
    for seed in 0..PROBLEMS {
        let problem = instances::small(seed);
        let (solution, best) = (solve(&problem, Effort::WHOLE), brute::cost(&problem));
        assert!((solution.cost - best).abs() < SLACK, "problem {seed}: {} instead of {best}", solution.cost);
        assert!((solution.lower - best).abs() < SLACK, "problem {seed}: bound {}, best {best}", solution.lower);
        plans += u64::from(solution.plan.is_some());
    }
    assert!(plans > PROBLEMS / 2 && plans < PROBLEMS, "{plans} of {PROBLEMS} are worth a try: no test of both");
}

#[test]
fn beliefs_that_are_met_again_keep_their_best_plan() {
    for seed in 0..PROBLEMS / 4 {
        let problem = instances::tangled(seed);
        let (solution, best) = (solve(&problem, Effort::WHOLE), brute::cost(&problem));
        assert!((solution.cost - best).abs() < SLACK, "problem {seed}: {} instead of {best}", solution.cost);
        assert!((solution.lower - best).abs() < SLACK, "problem {seed}: bound {}, best {best}", solution.lower);
    }
}

#[test]
fn with_little_effort_the_best_plan_lies_between_its_bounds() {
    let (mut exact, mut all) = (0, 0);
    for seed in 0..PROBLEMS / 2 {
        let problem = instances::small(seed);
        let best = brute::cost(&problem);
        for effort in SMALL {
            let solution = solve(&problem, effort);
            assert!(
                solution.lower <= best + SLACK,
                "problem {seed}, {effort:?}: bound {}, best {best}",
                solution.lower
            );
            assert!(solution.cost >= best - SLACK, "problem {seed}, {effort:?}: {} under {best}", solution.cost);
            let without = problem.terms.go_without;
            assert!(solution.cost <= without + SLACK, "problem {seed}, {effort:?}: worse than going without");
            exact += usize::from(solution.cost <= best + SLACK);
            all += 1;
        }
    }
    assert!(exact < all, "so little effort can't always do");
    assert!(exact * 2 > all, "only {exact} of {all} are the best plan");
}

/// More to try, more rows and more reasons than the others have, and any rate of misreports.
#[test]
fn wider_problems_with_misreports_are_solved_as_well() {
    for seed in 0..PROBLEMS / 4 {
        let problem = instances::wide(seed);
        let (solution, best) = (solve(&problem, Effort::WHOLE), brute::cost(&problem));
        assert!((solution.cost - best).abs() < SLACK, "problem {seed}: {} instead of {best}", solution.cost);
        assert!((solution.lower - best).abs() < SLACK, "problem {seed}: bound {}, best {best}", solution.lower);
    }
}

/// One, two, three tries and so on, up to more than there are candidates; and from no time to time enough.
#[test]
fn limits_of_tries_and_minutes_are_kept() {
    for seed in 0..PROBLEMS / 8 {
        let mut problem = without_limit(instances::small(seed));
        let unlimited = (1..=problem.candidates() + 1).map(|tries| {
            problem.terms.tries = tries;
            let solution = solve(&problem, Effort::WHOLE);
            let best = brute::cost(&problem);
            assert!((solution.cost - best).abs() < SLACK, "problem {seed}, {tries} tries: {solution:?}, {best}");
            assert!((solution.lower - best).abs() < SLACK, "problem {seed}, {tries} tries: {solution:?}, {best}");
            best
        });
        let unlimited = unlimited.collect::<Vec<_>>();
        assert!(unlimited.is_sorted_by(|a, b| *a >= b - SLACK), "problem {seed}: {unlimited:?}");
        let [.., all, more] = unlimited[..] else { panic!("problem {seed} has candidates") };
        assert!((all - more).abs() < SLACK, "problem {seed}: nothing is left for one try more");
        let mut before = problem.terms.go_without;
        for minutes in [0.0, 6.0, 12.0, 18.0, 27.0, 1000.0] {
            problem.terms.minutes = Some(minutes);
            let solution = solve(&problem, Effort::WHOLE);
            let best = brute::cost(&problem);
            assert!((solution.cost - best).abs() < SLACK, "problem {seed}, {minutes} minutes: {solution:?}, {best}");
            assert!((solution.lower - best).abs() < SLACK, "problem {seed}, {minutes} minutes: {solution:?}, {best}");
            assert!(best <= before + SLACK, "problem {seed}: {minutes} minutes are more than before");
            before = best;
        }
        assert!((before - more).abs() < SLACK, "problem {seed}: time enough is no limit");
    }
}

/// A plan that shares one branch among improbable reasons is one of the plans that hear them all.
#[test]
fn a_folded_plan_is_between_the_bound_and_no_better_than_the_best() {
    for seed in 0..PROBLEMS / 2 {
        let mut problem = without_limit(instances::small(seed));
        let best = brute::cost(&problem);
        for fold in FOLDS {
            problem.terms.fold = fold;
            for effort in SMALL.into_iter().chain([Effort::WHOLE]) {
                let solution = solve(&problem, effort);
                let told = format!("problem {seed}, {fold:?}, {effort:?}, best {best}: {solution:?}");
                assert!(solution.lower <= best + SLACK, "{told}");
                assert!(solution.cost >= best - SLACK, "{told}");
            }
        }
    }
}

/// With a limit of minutes a shared branch asks whether there is time on the average of its reasons, so a folded
/// plan can do what the finer one may not. Without a limit it can't.
fn without_limit(mut problem: Problem) -> Problem {
    problem.terms.minutes = None;
    problem
}

/// What counts is a row's share, not how it is written down.
#[test]
fn splitting_and_permuting_rows_changes_nothing() {
    for seed in 0..PROBLEMS / 4 {
        let problem = instances::small(seed);
        let mut split = problem.clone();
        split.weight = problem.weight.iter().rev().flat_map(|weight| [0.25 * weight, 0.75 * weight]).collect();
        for (own, from) in split.outcome.iter_mut().zip(&problem.outcome) {
            *own = from.iter().rev().flat_map(|outcome| [*outcome; 2]).collect();
        }
        for (own, from) in split.minutes.iter_mut().zip(&problem.minutes) {
            *own = from.iter().rev().flat_map(|minutes| [*minutes; 2]).collect();
        }
        let (whole, parts) = (solve(&problem, Effort::WHOLE), solve(&split, Effort::WHOLE));
        assert!((whole.cost - parts.cost).abs() < SLACK, "problem {seed}: {} and {}", whole.cost, parts.cost);
    }
}

/// More to try, more tries and more time can only help.
#[test]
fn more_room_never_costs_more() {
    for seed in 0..PROBLEMS / 4 {
        let problem = instances::small(seed);
        let cost = solve(&problem, Effort::WHOLE).cost;
        let mut wider = problem.clone();
        wider.terms.tries += 1;
        assert!(solve(&wider, Effort::WHOLE).cost <= cost + SLACK, "problem {seed}: one more try");
        wider = without_limit(problem.clone());
        assert!(solve(&wider, Effort::WHOLE).cost <= cost + SLACK, "problem {seed}: no limit of minutes");
        let mut fewer = problem;
        fewer.outcome.pop();
        fewer.minutes.pop();
        assert!(solve(&fewer, Effort::WHOLE).cost >= cost - SLACK, "problem {seed}: one candidate fewer");
    }
}
