//! A solver as plain as can be: every candidate after every report, no pruning, no memory.

use lidladder::plan::Problem;

/// What the best plan costs, going without included.
pub(super) fn cost(problem: &Problem) -> f64 {
    let terms = &problem.terms;
    from(problem, &problem.weight, &mut Vec::new(), terms.minutes.unwrap_or(f64::INFINITY))
}

/// The best cost from a belief on, times the probability of getting there. `weight` is the belief: the share of
/// each row that has failed every try so far and was reported as it was.
fn from(problem: &Problem, weight: &[f64], tried: &mut Vec<usize>, minutes_left: f64) -> f64 {
    let mass: f64 = weight.iter().sum();
    let mut best = problem.terms.go_without * mass;
    if tried.len() == problem.terms.tries || mass < 1e-15 {
        return best;
    }
    for candidate in 0..problem.outcome.len() {
        let spent: f64 = weight.iter().zip(&problem.minutes[candidate]).map(|(w, minutes)| w * minutes).sum();
        if tried.contains(&candidate) || spent / mass > minutes_left + 1e-9 {
            continue;
        }
        tried.push(candidate);
        let heard = (1..=problem.reasons).map(|report| {
            let after: Vec<f64> = weight
                .iter()
                .zip(&problem.outcome[candidate])
                .map(|(w, truth)| w * hears(problem, report, *truth))
                .collect();
            from(problem, &after, tried, minutes_left - spent / mass)
        });
        let cost = spent + heard.sum::<f64>();
        tried.pop();
        best = best.min(cost);
    }
    best
}

/// How probable a report is when the truth is this; nobody reports a fit as a failure.
fn hears(problem: &Problem, report: u8, truth: u8) -> f64 {
    let misreport = problem.terms.misreport;
    match (truth, problem.reasons) {
        (0, _) => 0.0,
        (_, 1) => 1.0,
        (truth, _) if truth == report => 1.0 - misreport,
        (_, reasons) => misreport / f64::from(reasons - 1),
    }
}
