//! The shape of a plan, and a walk of many customers through it.

use super::dice::Dice;
use super::instances;
use lidladder::plan::{Effort, Fold, Problem, Reports, Source, Step, solve};

const EFFORTS: [Effort; 2] = [Effort::WHOLE, Effort { look_ahead: 1, breadth: 2, work: 60 }];

#[test]
fn a_plan_is_a_tree_in_good_order() {
    for seed in 0..300 {
        let mut problem = instances::small(seed);
        problem.terms.fold =
            [Fold::NONE, Fold { below: 0.1, share: 0.1 }, Fold::ALL][usize::try_from(seed % 3).unwrap()];
        for effort in EFFORTS {
            if let Some(plan) = solve(&problem, effort).plan {
                check(&problem, &plan, &mut Vec::new(), seed);
            }
        }
    }
}

fn check(problem: &Problem, step: &Step, path: &mut Vec<usize>, seed: u64) {
    assert!(!path.contains(&step.candidate), "problem {seed}: {path:?} tries {} again", step.candidate);
    assert_eq!((step.source, step.rival), (Source::Computed, None), "problem {seed}: there are no rules");
    path.push(step.candidate);
    assert!(path.len() <= problem.terms.tries, "problem {seed}: {path:?} is too long");
    let mut heard = 0;
    for (reports, next) in &step.branches {
        assert_ne!(reports.0, 0, "problem {seed}: a branch that nobody takes");
        assert_eq!(heard & reports.0, 0, "problem {seed}: a report with two branches");
        assert!(reports.numbers().all(|number| number <= problem.reasons), "problem {seed}: an unknown reason");
        heard |= reports.0;
        if let Some(next) = next {
            check(problem, next, path, seed);
        }
    }
    path.pop();
}

/// Customers one by one: a state by its weight, a report that may be wrong, the branch that has it. Their mean cost
/// is the plan's cost, within five standard errors.
#[test]
fn customers_who_walk_through_a_plan_pay_what_it_says() {
    let customers = 4000;
    let mut furthest: f64 = 0.0;
    for seed in 0..60 {
        let mut problem = instances::small(seed);
        problem.terms.fold = [Fold::NONE, Fold { below: 0.2, share: 0.0 }][usize::try_from(seed % 2).unwrap()];
        let solution = solve(&problem, Effort::WHOLE);
        let mut dice = Dice::new(seed ^ 0xD1CE);
        let paid: Vec<f64> = (0..customers).map(|_| walk(&problem, solution.plan.as_ref(), &mut dice)).collect();
        let count = f64::from(customers);
        let mean = paid.iter().sum::<f64>() / count;
        let variance = paid.iter().map(|cost| (cost - mean).powi(2)).sum::<f64>() / (count - 1.0);
        let error = (variance / count).sqrt();
        let off = (mean - solution.cost).abs();
        assert!(off <= 5.0 * error + 1e-6, "problem {seed}: {mean} ± {error}, the plan says {}", solution.cost);
        furthest = furthest.max(error);
    }
    assert!(furthest > 0.01, "a walk without chance tests nothing");
}

fn walk(problem: &Problem, plan: Option<&Step>, dice: &mut Dice) -> f64 {
    let row = state(&problem.weight, dice);
    let (mut here, mut paid) = (plan, 0.0);
    while let Some(step) = here {
        paid += problem.minutes[step.candidate][row];
        let truth = problem.outcome[step.candidate][row];
        if truth == 0 {
            return paid;
        }
        let report = Reports::one(reported(problem, truth, dice));
        here = step.branches.iter().find(|(reports, _)| reports.0 & report.0 != 0).and_then(|(_, next)| next.as_ref());
    }
    paid + problem.terms.go_without
}

fn state(weight: &[f64], dice: &mut Dice) -> usize {
    let mut roll = dice.unit();
    let passed = |share: &f64| {
        roll -= share;
        roll < 0.0
    };
    weight.iter().position(passed).unwrap_or(weight.len() - 1)
}

fn reported(problem: &Problem, truth: u8, dice: &mut Dice) -> u8 {
    if problem.reasons == 1 || dice.unit() >= problem.terms.misreport {
        return truth;
    }
    let others: Vec<u8> = (1..=problem.reasons).filter(|reason| *reason != truth).collect();
    dice.one_of(&others)
}
