//! The way through a plan: from reasons that were reported to the step that they lead to.

use super::super::belief::Belief;
use super::super::choose::{Chosen, Setting};
use super::super::judge::{Panel, reasons};
use super::super::policy::{self, Source, Step};
use super::super::problem::Reports;
use super::super::search::{Node, Search};
use crate::fit::Quote;
use crate::profile::{Edge, Nature, Reason};

/// A step that was left behind.
#[derive(Debug, Clone, PartialEq)]
pub struct Passed {
    /// What was tried.
    pub candidate: usize,
    /// What was reported of it.
    pub reason: Reason,
    /// The reasons that the plan answers alike, this one among them; none for an aside.
    pub branch: Vec<Reason>,
    /// Probability of hearing one of them when the step is tried; for an aside, of the helmet fitting.
    pub probability: Quote,
}

/// A reason that leads to no step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Nowhere {
    /// What was tried.
    pub candidate: usize,
    /// What was reported of it.
    pub reason: Reason,
    /// What is the matter.
    pub kind: NowhereKind,
}

/// Why a reason leads to no step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NowhereKind {
    /// The plan ends there: nothing more is worth trying.
    End,
    /// No head that gets there would report it.
    Unheard,
    /// Geometry is silent about it, and so is the shop.
    NoRule,
    /// The model and size are out at once, whatever the pads.
    Stop,
    /// The helmet is one beside the plan, and the plan names nothing after it.
    BesideThePlan,
}

/// A way with what lies at its end.
pub(super) struct Trail<'p> {
    pub(super) passed: Vec<Footstep>,
    pub(super) place: Place<'p>,
}

/// What was tried and heard.
#[derive(Debug)]
pub(super) struct Footstep {
    candidate: usize,
    reason: Reason,
    /// None where the helmet fits and is no good for a reason that no geometry tells.
    reports: Option<Reports>,
}

/// What lies at the end of a way.
pub(super) enum Place<'p> {
    Step(Spot<'p>),
    /// A step of its own, with nothing after it.
    Aside(Step),
    Nowhere(Nowhere),
    NoPlan,
}

/// A step of the plan, and where the search stands there.
pub(super) struct Spot<'p> {
    pub(super) step: &'p Step,
    pub(super) node: Node,
    pub(super) look_ahead: usize,
    pub(super) failed: Option<(usize, Reports)>,
}

/// Follows the reasons from the first step on.
pub(super) fn follow<'p>(
    setting: &Setting,
    search: &mut Search<'_>,
    chosen: &'p Chosen,
    edges: &[Edge],
    way: &[Reason],
) -> Trail<'p> {
    let mut passed = Vec::new();
    let Some(first) = &chosen.plan else { return Trail { passed, place: Place::NoPlan } };
    let mut spot = Spot { step: first, node: search.root(), look_ahead: chosen.look_ahead, failed: None };
    let mut reasons = way.iter().copied();
    while let Some(reason) = reasons.next() {
        let candidate = spot.step.candidate;
        let nowhere = |kind| Place::Nowhere(Nowhere { candidate, reason, kind });
        let place = match reason.nature() {
            Nature::Geometric => match onward(search, &spot, reason) {
                Ok(next) => {
                    let reports = next.failed.map(|(_, reports)| reports);
                    passed.push(Footstep { candidate, reason, reports });
                    spot = next;
                    continue;
                }
                Err(kind) => nowhere(kind),
            },
            Nature::Experience => match aside(setting, edges, &spot, reason) {
                Some(target) => {
                    passed.push(Footstep { candidate, reason, reports: None });
                    match reasons.next() {
                        None => Place::Aside(target),
                        Some(reason) => Place::Nowhere(Nowhere {
                            candidate: target.candidate,
                            reason,
                            kind: if reason.nature() == Nature::Stop {
                                NowhereKind::Stop
                            } else {
                                NowhereKind::BesideThePlan
                            },
                        }),
                    }
                }
                None => nowhere(NowhereKind::NoRule),
            },
            Nature::Stop => nowhere(NowhereKind::Stop),
        };
        return Trail { passed, place };
    }
    Trail { passed, place: Place::Step(spot) }
}

/// The next step of the plan after a report.
fn onward<'p>(search: &mut Search<'_>, spot: &Spot<'p>, reason: Reason) -> Result<Spot<'p>, NowhereKind> {
    let candidate = spot.step.candidate;
    let number = (1..).zip(Reason::geometric()).find(|(_, known)| **known == reason).map_or(0, |(number, _)| number);
    let branch = spot.step.branches.iter().find(|(reports, _)| reports.has(number));
    let (reports, next) = branch.ok_or(NowhereKind::Unheard)?;
    let step = next.as_ref().ok_or(NowhereKind::End)?;
    let child = search.children(&spot.node, candidate).1.into_iter().find(|(other, _)| other == reports);
    let (_, node) = child.ok_or(NowhereKind::Unheard)?;
    Ok(Spot { step, node, look_ahead: policy::look_ahead_after(spot.look_ahead), failed: Some((candidate, *reports)) })
}

/// The target of the rule for a reason that no geometry tells; of several, the one that fits most often.
fn aside(setting: &Setting, edges: &[Edge], spot: &Spot<'_>, reason: Reason) -> Option<Step> {
    let problem = &setting.problem;
    let candidate = spot.step.candidate;
    let fitting = spot.node.belief.keep(|row| problem.outcome[candidate][row] == 0);
    let fits = |target: usize| fitting.fit_probability(&problem.outcome[target]);
    let rules = policy::asides(problem, &setting.rules, &spot.node, candidate).into_iter();
    let about = rules.filter(|(rule, _)| edges.get(*rule).is_some_and(|edge| edge.reason == reason));
    let (rule, target) = about.rev().max_by(|a, b| fits(a.1).total_cmp(&fits(b.1)))?;
    Some(Step::plain(target, Source::Rule(rule), vec![(Reports::all(problem.reasons), None)]))
}

impl Trail<'_> {
    /// Every candidate on the way.
    pub(super) fn tried(&self) -> impl Iterator<Item = usize> {
        self.passed.iter().map(|passed| passed.candidate)
    }

    /// Walks the judges' heads along the way, and tells how often each report is heard.
    pub(super) fn walk(&self, panel: &Panel<'_>) -> (Vec<Passed>, Vec<Belief>) {
        let mut here = panel.whole();
        let mut way = Vec::new();
        for Footstep { candidate, reason, reports } in &self.passed {
            let next = match reports {
                Some(reports) => panel.after(*candidate, *reports, &here),
                None => panel.fitted(*candidate, &here),
            };
            way.push(Passed {
                candidate: *candidate,
                reason: *reason,
                branch: reports.map(reasons).unwrap_or_default(),
                probability: Quote::ratio(next.iter().zip(&here).map(|(next, here)| (next.mass, here.mass))),
            });
            here = next;
        }
        (way, here)
    }
}
