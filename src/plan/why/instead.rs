//! What else could be tried at a step, and what it would take.

use super::super::belief::Belief;
use super::super::choose::Setting;
use super::super::judge::{Panel, Tally};
use super::super::policy::{self, Source, Step};
use super::super::problem::{Problem, Terms};
use super::super::search::{Node, Search};
use super::way::Spot;
use crate::fit::Quote;
use itertools::Itertools;

/// Another thing to try at a step.
#[derive(Debug, Clone, PartialEq)]
pub struct Instead {
    /// Which.
    pub candidate: usize,
    /// Why it is named.
    pub roles: Vec<Role>,
    /// Probability that it fits with the pads on offer, given that we are here.
    pub fit: Quote,
    /// Expected minutes of the try.
    pub minutes: Quote,
    /// What would be to come, this try included, with the plan's choice still to be had later.
    pub rest: Rest,
    /// Minutes that it costs more than the plan's choice over the whole rest, going without counted.
    pub more: Quote,
    /// Where they come from.
    pub shares: Shares,
    /// The same where the plan's choice is not there at all; only for the next best.
    pub more_without: Option<Quote>,
}

/// Why something else is named.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Role {
    /// What the plan would have here if its choice were not on the shelf.
    NextBest,
    /// A rule of the shop says so: its place in the list of rules.
    Rule(usize),
    /// The computation would have tried it.
    Computed,
}

/// What is to come, each with its error.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rest {
    /// Helmets put on.
    pub tries: Quote,
    /// Minutes of all tries.
    pub minutes: Quote,
    /// Probability of leaving without.
    pub no_fit: Quote,
    /// Minutes, going without counted.
    pub cost: Quote,
}

/// Whether something else would be better than the plan's choice.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// It costs more.
    Worse,
    /// The judges see no difference.
    Alike,
    /// It costs less.
    Better,
}

impl Instead {
    /// What the judges say of it.
    #[must_use]
    pub fn verdict(&self) -> Verdict {
        match self.more.value {
            _ if !is_felt(self.more) => Verdict::Alike,
            more if more > 0.0 => Verdict::Worse,
            _ => Verdict::Better,
        }
    }
}

/// Whether a difference in minutes is beyond its error, and large enough to be spoken of.
#[must_use]
pub fn is_felt(difference: Quote) -> bool {
    difference.value.abs() > difference.error && difference.value.abs() >= FELT_FROM
}

/// Nobody feels fewer minutes than these: six seconds.
const FELT_FROM: f64 = 0.1;

/// A difference of costs in minutes, split so that the three add up to it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shares {
    /// The try itself takes longer: its pads.
    pub pads: Quote,
    /// It fails more often.
    pub fails: Quote,
    /// After a failure more is to come.
    pub after: Quote,
    /// Minutes that are to come after a failure of the plan's choice, and of this one, going without counted.
    pub after_failure: [Quote; 2],
}

/// Another thing to try as the choosing heads have it.
pub(super) struct Other {
    roles: Vec<Role>,
    /// The plan that begins with it.
    plan: Step,
    /// The plan without the choice.
    without: Option<Step>,
}

/// What a plan takes from some beliefs on, judge by judge.
pub(super) struct Bill {
    mass: Vec<f64>,
    first: Vec<f64>,
    fails: Vec<f64>,
    tally: Tally,
    cost: Vec<f64>,
}

/// The next best thing to try, and whom the plan overruled.
pub(super) fn others(setting: &Setting, search: &mut Search<'_>, spot: &Spot<'_>) -> Vec<Other> {
    let step = spot.step;
    let next = without(setting, spot);
    let mut named: Vec<(usize, Vec<Role>)> = Vec::new();
    let role = |source| match source {
        Source::Computed => Role::Computed,
        Source::Rule(rule) => Role::Rule(rule),
    };
    let next_role = next.iter().flat_map(|next| {
        let rule = matches!(next.source, Source::Rule(_)).then(|| role(next.source));
        [Some(Role::NextBest), rule].into_iter().flatten().map(|role| (next.candidate, role))
    });
    for (candidate, role) in next_role.chain(step.rival.map(|(candidate, source)| (candidate, role(source)))) {
        match named.iter_mut().find(|(known, _)| *known == candidate) {
            Some((_, roles)) if roles.contains(&role) => {}
            Some((_, roles)) => roles.push(role),
            None => named.push((candidate, vec![role])),
        }
    }
    search.rest();
    let begin = |(candidate, roles): (usize, Vec<Role>)| Other {
        without: next.clone().filter(|_| roles.contains(&Role::NextBest)),
        plan: begin_with(setting, search, spot, candidate),
        roles,
    };
    named.into_iter().map(begin).collect()
}

/// The plan from here on that tries this first, and goes on as plans do.
fn begin_with(setting: &Setting, search: &mut Search<'_>, spot: &Spot<'_>, candidate: usize) -> Step {
    let rules = (&setting.rules, setting.lead);
    let branches = policy::after(search, &setting.problem, rules, &spot.node, spot.look_ahead, candidate);
    Step { candidate, source: Source::Computed, rival: None, branches, asides: Vec::new() }
}

/// The plan from here on if the choice were not on the shelf.
fn without(setting: &Setting, spot: &Spot<'_>) -> Option<Step> {
    let problem = left_without(&setting.problem, &spot.node, spot.step.candidate);
    let mut search = Search::new(&problem, setting.effort);
    let (_, look_ahead) = search.solve();
    search.rest();
    let root = search.root();
    policy::build(&mut search, &problem, (&setting.rules, setting.lead), &root, look_ahead, spot.failed)
}

/// What is left of a problem at a node when something is not there. That, and what was tried, keeps its number, but
/// takes longer than going without and fits nobody, so that no plan and no rule wants it.
fn left_without(problem: &Problem, node: &Node, absent: usize) -> Problem {
    let is_gone = |candidate| candidate == absent || node.path.iter().any(|(tried, _)| *tried == candidate);
    let rows = &node.belief.rows;
    let outcome = |(candidate, outcome): (usize, &Vec<u8>)| {
        rows.iter().map(|row| if is_gone(candidate) { 1 } else { outcome[*row as usize] }).collect()
    };
    let never = 2.0 * problem.terms.go_without + 1.0;
    let minutes = |(candidate, minutes): (usize, &Vec<f64>)| {
        rows.iter().map(|row| if is_gone(candidate) { never } else { minutes[*row as usize] }).collect()
    };
    Problem {
        weight: node.belief.weight.clone(),
        outcome: problem.outcome.iter().enumerate().map(outcome).collect(),
        minutes: problem.minutes.iter().enumerate().map(minutes).collect(),
        reasons: problem.reasons,
        terms: Terms { tries: node.left.tries, minutes: node.left.minutes, ..problem.terms },
    }
}

impl Other {
    /// Every candidate that is tried in it.
    pub(super) fn tried(&self) -> Vec<usize> {
        let plans = [Some(&self.plan), self.without.as_ref()];
        plans.into_iter().flatten().flat_map(policy::tried).collect()
    }

    /// What it takes, against the choice.
    pub(super) fn judged(&self, panel: &Panel<'_>, choice: &Bill, here: &[Belief], go_without: f64) -> Instead {
        let bill = Bill::of(panel, Some(&self.plan), here, go_without);
        let without = self.without.as_ref();
        Instead {
            candidate: self.plan.candidate,
            roles: self.roles.clone(),
            fit: panel.fit(self.plan.candidate, here),
            minutes: bill.first_minutes(),
            rest: bill.rest(),
            more: bill.more_than(choice),
            shares: bill.shares(choice),
            more_without: without.map(|plan| Bill::of(panel, Some(plan), here, go_without).more_than(choice)),
        }
    }
}

impl Bill {
    /// Walks the judges' heads from here through a plan; `None` leaves at once.
    pub(super) fn of(panel: &Panel<'_>, plan: Option<&Step>, here: &[Belief], go_without: f64) -> Self {
        let tally = panel.take(plan, here);
        let mass = here.iter().map(|belief| belief.mass).collect_vec();
        let alone = plan.map(|plan| Step { branches: Vec::new(), ..plan.clone() });
        let first = panel.take(alone.as_ref(), here).minutes;
        let fitted = plan.map(|plan| panel.fitted(plan.candidate, here)).unwrap_or_default();
        let fits = fitted.iter().map(|belief| belief.mass).chain(std::iter::repeat(0.0));
        let fails = mass.iter().zip(fits).map(|(mass, fits)| mass - fits).collect();
        let cost =
            tally.minutes.iter().zip(&tally.no_fit).map(|(spent, without)| spent + go_without * without).collect();
        Self { mass, first, fails, tally, cost }
    }

    /// Expected minutes of the first try.
    pub(super) fn first_minutes(&self) -> Quote {
        self.mean(&self.first)
    }

    /// All that is to come.
    pub(super) fn rest(&self) -> Rest {
        Rest {
            tries: self.mean(&self.tally.tries),
            minutes: self.mean(&self.tally.minutes),
            no_fit: self.mean(&self.tally.no_fit),
            cost: self.mean(&self.cost),
        }
    }

    /// Minutes more than another plan costs on the same heads.
    pub(super) fn more_than(&self, other: &Self) -> Quote {
        self.mean(&difference(&self.cost, &other.cost))
    }

    /// Where the difference comes from. With p the probability that the first try fails and c what is to come then,
    /// Δ(pc) = Δp · mean of both c + mean of both p · Δc.
    fn shares(&self, other: &Self) -> Shares {
        let [mut fails, mut after] = [Vec::new(), Vec::new()];
        for judge in 0..self.mass.len() {
            let [p, own_p] = [other.fails[judge], self.fails[judge]];
            let [c, own_c] = [other.after_failure(judge), self.after_failure(judge)];
            // Whoever never fails has nothing to come, and no say in how bad that would be.
            let (c, own_c) = (c.or(own_c).unwrap_or(0.0), own_c.or(c).unwrap_or(0.0));
            fails.push((own_p - p) * f64::midpoint(c, own_c));
            after.push(f64::midpoint(p, own_p) * (own_c - c));
        }
        Shares {
            pads: self.mean(&difference(&self.first, &other.first)),
            fails: self.mean(&fails),
            after: self.mean(&after),
            after_failure: [other, self].map(Self::expected_after_failure),
        }
    }

    fn after_failure(&self, judge: usize) -> Option<f64> {
        let fails = self.fails[judge];
        (fails > 1e-12).then(|| (self.cost[judge] - self.first[judge]) / fails)
    }

    fn expected_after_failure(&self) -> Quote {
        Quote::ratio(difference(&self.cost, &self.first).into_iter().zip(self.fails.iter().copied()))
    }

    fn mean(&self, sums: &[f64]) -> Quote {
        Quote::ratio(sums.iter().copied().zip(self.mass.iter().copied()))
    }
}

fn difference(one: &[f64], other: &[f64]) -> Vec<f64> {
    one.iter().zip(other).map(|(one, other)| one - other).collect()
}
