//! The planner by itself, on problems without helmets: against textbook values, closed forms, an independent
//! dynamic program, and a plain recursive solver that looks at everything.

#![expect(clippy::unwrap_used, reason = "a helper of a test fails with its test")]

mod brute;
pub(crate) mod dice;
mod families;
mod instances;
mod ladders;
mod misreports;
mod search;
mod textbook;
mod tree;

use lidladder::plan::{Effort, Fold, Problem, Solution, Step, Terms, solve};

/// Going without costs so much that nobody gives up while anything may fit.
const NEVER_GIVE_UP: f64 = 1000.0;

/// True reasons are always reported, nothing is folded, and there is no limit of minutes.
fn honest(tries: usize) -> Terms {
    Terms { misreport: 0.0, go_without: NEVER_GIVE_UP, tries, minutes: None, fold: Fold::NONE }
}

/// A problem whose tries cost the same whatever the state.
fn flat(weight: Vec<f64>, outcome: Vec<Vec<u8>>, cost: &[f64], reasons: u8) -> Problem {
    let minutes = cost.iter().map(|minutes| vec![*minutes; weight.len()]).collect();
    let terms = honest(outcome.len());
    Problem { weight, outcome, minutes, reasons, terms }
}

/// The same problem when all that is heard is that a try failed: an order, not a tree.
fn deaf(mut problem: Problem) -> Problem {
    for reason in problem.outcome.iter_mut().flatten() {
        *reason = u8::from(*reason > 0);
    }
    problem.reasons = 1;
    problem
}

/// The best plan, which must come with the proof that it is.
fn best(problem: &Problem) -> Solution {
    let solution = solve(problem, Effort::WHOLE);
    near("the bound meets the cost", solution.lower, solution.cost);
    solution
}

/// The tries that follow when every one fails with its first report.
fn first_path(plan: Option<&Step>) -> Vec<usize> {
    let path = std::iter::successors(plan, |step| step.branches.first().and_then(|(_, next)| next.as_ref()));
    path.map(|step| step.candidate).collect()
}

/// Expected cost of trying in this order until something fits, without what going without costs.
fn order_cost(problem: &Problem, order: &[usize]) -> f64 {
    let mut left = problem.weight.clone();
    let mut cost = 0.0;
    for candidate in order {
        for (row, weight) in left.iter_mut().enumerate() {
            cost += *weight * problem.minutes[*candidate][row];
            if problem.outcome[*candidate][row] == 0 {
                *weight = 0.0;
            }
        }
    }
    cost
}

#[track_caller]
fn near(what: &str, found: f64, expected: f64) {
    assert!((found - expected).abs() < 1e-9, "{what}: {found} instead of {expected}");
}
