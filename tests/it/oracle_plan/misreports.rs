//! Wrong reports: at one end the value of honest ones, at the other that of no reports at all, and between them never
//! better with more of them.

use super::{brute, deaf, instances, near};
use lidladder::plan::{Effort, Problem, solve};

const PROBLEMS: u64 = 300;

/// The best cost where every failure names its true reason: rows that fail alike stay together. Knows nothing of
/// reports and likelihoods.
fn honest_cost(problem: &Problem, rows: &[usize], tried: &mut Vec<usize>) -> f64 {
    let mass: f64 = rows.iter().map(|row| problem.weight[*row]).sum();
    let mut best = problem.terms.go_without * mass;
    if tried.len() == problem.terms.tries {
        return best;
    }
    for candidate in (0..problem.candidates()).filter(|candidate| !tried.contains(candidate)).collect::<Vec<_>>() {
        let mut cost: f64 = rows.iter().map(|row| problem.weight[*row] * problem.minutes[candidate][*row]).sum();
        tried.push(candidate);
        for reason in 1..=problem.reasons {
            let alike = |row: &usize| problem.outcome[candidate][*row] == reason;
            cost += honest_cost(problem, &rows.iter().copied().filter(alike).collect::<Vec<_>>(), tried);
        }
        tried.pop();
        best = best.min(cost);
    }
    best
}

fn at(mut problem: Problem, misreport: f64) -> Problem {
    problem.terms.minutes = None;
    problem.terms.misreport = misreport;
    problem
}

#[test]
fn without_misreports_the_best_plan_is_that_of_honest_customers() {
    for seed in 0..PROBLEMS {
        let problem = at(instances::small(seed), 0.0);
        let rows = (0..problem.weight.len()).collect::<Vec<_>>();
        let honest = honest_cost(&problem, &rows, &mut Vec::new());
        near(&format!("problem {seed}"), solve(&problem, Effort::WHOLE).cost, honest);
    }
}

/// With r reasons and a rate of (r - 1) / r every report is as probable as any other, whatever the truth.
#[test]
fn reports_that_are_drawn_by_lot_are_worth_nothing() {
    let mut worth = 0;
    for seed in 0..PROBLEMS {
        let problem = at(instances::small(seed), 0.0);
        let reasons = f64::from(problem.reasons);
        let by_lot = at(problem.clone(), (reasons - 1.0) / reasons);
        let unheard = deaf(problem.clone());
        let solution = solve(&by_lot, Effort::WHOLE);
        near(&format!("problem {seed}"), solution.cost, brute::cost(&unheard));
        near(&format!("problem {seed}, its bound"), solution.lower, solution.cost);
        worth += u64::from(solve(&problem, Effort::WHOLE).cost < solution.cost - 1e-6);
    }
    assert!(worth > PROBLEMS / 20, "honest reports help in {worth} of {PROBLEMS} only");
}

/// A report that is wrong more often can be made from one that is wrong less often, so it can't tell more.
#[test]
fn more_misreports_never_help() {
    for seed in 0..PROBLEMS {
        let problem = instances::small(seed);
        let useless = f64::from(problem.reasons - 1) / f64::from(problem.reasons);
        let cost = |part: f64| solve(&at(problem.clone(), part * useless), Effort::WHOLE).cost;
        let costs = [0.0, 0.1, 0.3, 0.6, 1.0].map(cost);
        assert!(costs.is_sorted_by(|a, b| *a <= b + 1e-9), "problem {seed}: {costs:?}");
    }
}
