//! What else could be tried at a step, and what it would take.

use super::super::belief::Belief;
use super::super::choose::Setting;
use super::super::policy::{self, Source, Step};
use super::super::problem::{Problem, Reports, Terms};
use super::super::search::{Left, Node, Search};
use super::bill::{Bill, Cashier, Shares, ToCome};
use super::way::Spot;
use crate::fit::Quote;

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
    pub rest: ToCome,
    /// Minutes that it costs more than the plan's choice over the whole rest, going without counted.
    pub more: Quote,
    /// Where they come from.
    pub shares: Shares,
    /// Minutes that hearing why it fails saves after a failure.
    pub hearing: Quote,
    /// Minutes that the plan costs more where its choice is not there at all; only for the next best.
    pub more_without: Option<Quote>,
}

/// Why something else is named.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Role {
    /// What the plan would have here if its choice were not on the shelf.
    NextBest,
    /// A rule of the shop says so: its place in the list of rules.
    Rule(usize),
    /// The computation would have tried it.
    Computed,
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

/// Another thing to try as the choosing heads have it.
pub(super) struct Other {
    roles: Vec<Role>,
    /// The plan that begins with it.
    plan: Step,
    /// The same where nobody hears why it fails.
    unheard: Step,
    /// The plan without the choice.
    without: Option<Step>,
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
    let begin = |(candidate, roles): (usize, Vec<Role>)| {
        let rules = (&setting.rules, setting.lead);
        let plan = policy::begin_with(search, &setting.problem, rules, &spot.node, spot.look_ahead, candidate);
        let unheard = unheard(setting, &spot.node, &plan);
        Other { without: next.clone().filter(|_| roles.contains(&Role::NextBest)), unheard, plan, roles }
    };
    named.into_iter().map(begin).collect()
}

/// The plan from here on if the choice were not on the shelf.
fn without(setting: &Setting, spot: &Spot<'_>) -> Option<Step> {
    let node = &spot.node;
    left(setting, spot.step.candidate, node, (&node.belief, node.left)).and_then(|left| left.plan(setting, spot.failed))
}

/// The same step, but that nobody hears why it fails: what comes next is the same for every reason.
pub(super) fn unheard(setting: &Setting, node: &Node, step: &Step) -> Step {
    let candidate = step.candidate;
    let split = node.belief.split(&setting.problem, candidate);
    let all = Reports::all(setting.problem.reasons);
    let after = split.after(&setting.problem, all);
    let minutes = node.left.minutes.map(|minutes| minutes - split.minutes / node.belief.mass);
    let left = left(setting, candidate, node, (&after, Left { tries: node.left.tries - 1, minutes }));
    let next = left.and_then(|left| left.plan(setting, Some((candidate, all))));
    Step::plain(candidate, step.source, vec![(all, next)])
}

/// A problem that begins in the middle of another.
struct Rest(Problem);

/// What is left of the problem for some rows when something more is gone; `None` where nothing is left to do. What is
/// gone, and what was tried, keeps its number, but takes longer than going without and fits nobody, so that no plan
/// and no rule wants it.
fn left(setting: &Setting, gone: usize, node: &Node, (belief, left): (&Belief, Left)) -> Option<Rest> {
    if belief.rows.is_empty() || left.tries == 0 {
        return None;
    }
    let problem = &setting.problem;
    let is_gone = |candidate| candidate == gone || node.path.iter().any(|(tried, _)| *tried == candidate);
    let outcome = |(candidate, outcome): (usize, &Vec<u8>)| {
        belief.rows.iter().map(|row| if is_gone(candidate) { 1 } else { outcome[*row as usize] }).collect()
    };
    let never = 2.0 * problem.terms.go_without + 1.0;
    let minutes = |(candidate, minutes): (usize, &Vec<f64>)| {
        belief.rows.iter().map(|row| if is_gone(candidate) { never } else { minutes[*row as usize] }).collect()
    };
    Some(Rest(Problem {
        weight: belief.weight.clone(),
        outcome: problem.outcome.iter().enumerate().map(outcome).collect(),
        minutes: problem.minutes.iter().enumerate().map(minutes).collect(),
        reasons: problem.reasons,
        terms: Terms { tries: left.tries, minutes: left.minutes, ..problem.terms },
    }))
}

impl Rest {
    /// The plan for it, made as the whole plan was.
    fn plan(&self, setting: &Setting, failed: Option<(usize, Reports)>) -> Option<Step> {
        let heard = failed.map(|(candidate, reports)| setting.rules.heard(candidate, reports));
        let mut search = Search::new(&self.0, setting.effort);
        let (_, look_ahead) = search.solve();
        search.rest();
        let root = search.root();
        policy::build(&mut search, &self.0, (&setting.rules, setting.lead), &root, look_ahead, heard).0
    }
}

impl Other {
    /// Every candidate that is tried in it.
    pub(super) fn tried(&self) -> Vec<usize> {
        let plans = [Some(&self.plan), Some(&self.unheard), self.without.as_ref()];
        plans.into_iter().flatten().flat_map(policy::tried).collect()
    }

    /// What it takes, against the choice.
    pub(super) fn judged(&self, cashier: &Cashier<'_>, choice: &Bill) -> Instead {
        let bill = cashier.bill(&self.plan, &self.unheard);
        Instead {
            candidate: self.plan.candidate,
            roles: self.roles.clone(),
            fit: cashier.panel.fit(self.plan.candidate, cashier.here),
            minutes: bill.first_minutes(),
            rest: bill.to_come(),
            more: bill.more_than(choice),
            shares: bill.shares(choice),
            hearing: bill.hearing(),
            more_without: self.without.as_ref().map(|plan| cashier.bill(plan, plan).more_than(choice)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::super::choose::{Chosen, choose};
    use super::super::super::policy::{Lead, Rules, cost};
    use super::super::super::problem::{Fold, Terms};
    use super::super::super::search::Effort;
    use super::super::way::{self, Place, Trail};
    use super::*;
    use crate::head::Stream;
    use crate::profile::Reason;
    use itertools::Itertools;
    use rstest::rstest;

    const REASONS: u8 = 3;

    /// Five candidates and nine rows, anything may happen with any.
    fn setting(seed: u64, tries: usize, minutes: Option<f64>, misreport: f64) -> Setting {
        let dice = |what: &str, row: u32, candidate: u32| Stream::new(seed, candidate, what).uniforms(row, 0)[0];
        let weight = (0..9).map(|row| 0.1 + dice("weight", row, 0)).collect_vec();
        let total: f64 = weight.iter().sum();
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from 0 to the number of reasons")]
        let outcome = |candidate| (0..9).map(|row| (dice("outcome", row, candidate) * 4.0) as u8).collect();
        let spent = |candidate| (0..9).map(|row| 3.0 + 6.0 * dice("minutes", row, candidate)).collect();
        let terms = Terms { misreport, go_without: 40.0, tries, minutes, fold: Fold::NONE };
        let problem = Problem {
            weight: weight.iter().map(|weight| weight / total).collect(),
            outcome: (0..5).map(outcome).collect(),
            minutes: (0..5).map(spent).collect(),
            reasons: REASONS,
            terms,
        };
        Setting { problem, rules: Rules::default(), lead: Lead::ComputedOnly, effort: Effort::WHOLE }
    }

    /// Looks at every step that some way of reasons leads to.
    fn each_spot(setting: &Setting, look: &mut dyn FnMut(&mut Search<'_>, &Spot<'_>)) -> Chosen {
        let mut search = setting.search();
        let chosen = choose(setting, &mut search);
        let anew = cost(&setting.problem, chosen.plan.as_ref(), &Belief::whole(&setting.problem));
        assert!((chosen.optimality.cost - anew).abs() < 1e-9, "{} instead of {anew}", chosen.optimality.cost);
        let mut ways = vec![Vec::new()];
        while let Some(way) = ways.pop() {
            let Trail { place: Place::Step(spot), .. } = way::follow(setting, &mut search, &chosen, &[], &way) else {
                continue;
            };
            look(&mut search, &spot);
            let heard = &Reason::geometric()[..usize::from(REASONS)];
            ways.extend(heard.iter().map(|reason| [way.as_slice(), &[*reason]].concat()));
        }
        chosen
    }

    #[rstest]
    #[case::honest(4, None, 0.0)]
    #[case::misreports(3, None, 0.1)]
    #[case::little_time(4, Some(14.0), 0.1)]
    #[case::one_try(1, None, 0.1)]
    fn nothing_else_beats_an_exact_plan(
        #[case] tries: usize,
        #[case] minutes: Option<f64>,
        #[case] misreport: f64,
        #[values(1, 2, 3, 4, 5, 6, 7, 8)] seed: u64,
    ) {
        let setting = setting(seed, tries, minutes, misreport);
        let mut spots = 0;
        each_spot(&setting, &mut |search, spot| {
            spots += 1;
            let takes = |plan: Option<&Step>| cost(&setting.problem, plan, &spot.node.belief);
            let choice = takes(Some(spot.step));
            assert!(takes(Some(&unheard(&setting, &spot.node, spot.step))) >= choice - 1e-9, "to hear is no harm");
            assert!(takes(without(&setting, spot).as_ref()) >= choice - 1e-9, "less choice is no gain");
            for other in others(&setting, search, spot) {
                let first = takes(Some(&other.plan));
                assert!(first >= choice - 1e-9, "{first} beats {choice}");
                let without = other.without.expect("nobody else is named");
                assert_eq!((without.candidate, other.roles), (other.plan.candidate, vec![Role::NextBest]));
                assert!(takes(Some(&without)) >= first - 1e-9, "to have the choice later is no harm");
                assert!(!policy::tried(&without).contains(&spot.step.candidate), "what is not there is not tried");
            }
        });
        assert!(spots > 0);
    }

    #[rstest]
    fn the_next_best_is_the_plan_without_the_choice(#[values(1, 2, 3, 4, 5, 6)] seed: u64) {
        let setting = setting(seed, 3, None, 0.08);
        let mut seen = Vec::new();
        let chosen = each_spot(&setting, &mut |_, spot| {
            if spot.failed.is_none() {
                seen.push(cost(&setting.problem, without(&setting, spot).as_ref(), &spot.node.belief));
            }
        });
        let choice = chosen.plan.expect("something is worth a try").candidate;
        let mut fewer = setting.problem;
        fewer.outcome.remove(choice);
        fewer.minutes.remove(choice);
        let solved = super::super::super::solve(&fewer, Effort::WHOLE);
        assert!((seen[0] - solved.cost).abs() < 1e-9, "{seen:?} instead of {}", solved.cost);
    }
}
