//! Why a step of the plan is what it is: what else could be tried there, what each would take, and whose heads are
//! left. Asked for by itself; a plan that nobody asks about costs nothing more.
//!
//! The heads that chose the plan choose the alternatives, too; what is quoted comes from the judges, and differences
//! are taken judge by judge, so that most of the scatter drops out.

mod instead;
mod likely;
mod way;

pub use instead::{Instead, Rest, Role, Shares, Verdict, is_felt};
pub use likely::{Likely, Moved, Told};
pub use way::{Nowhere, NowhereKind, Passed};

use super::Making;
use super::belief::Belief;
use super::judge::{JudgedStep, Panel};
use super::policy::{self, Step};
use crate::fit::Quote;
use crate::profile::Reason;
use instead::{Bill, Other};
use itertools::Itertools;
use way::Place;

/// What a way of reasons leads to.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// The steps that were left behind, and what was reported of each.
    pub way: Vec<Passed>,
    /// Where it leads.
    pub found: Found,
}

/// Where a way of reasons leads.
#[derive(Debug, Clone, PartialEq)]
pub enum Found {
    /// To a step of the plan.
    Step(Box<StepWhy>),
    /// Beside the plan: to the target of a shop's rule for what no geometry tells.
    Aside(Box<StepWhy>),
    /// To no step.
    Nowhere(Nowhere),
    /// There is no plan: nothing is worth a try.
    NoPlan,
}

/// A step with all that speaks for it.
#[derive(Debug, Clone, PartialEq)]
pub struct StepWhy {
    /// Probability of getting here; for an aside, of getting to the step before it and that helmet fitting.
    pub reach: Quote,
    /// The step, with the figures that the plan has for it.
    pub step: JudgedStep,
    /// Expected minutes of the try.
    pub minutes: Quote,
    /// What is to come, this try included.
    pub rest: Rest,
    /// What else could be tried here.
    pub instead: Vec<Instead>,
    /// What leaving at once would cost more, in minutes.
    pub leaving: Quote,
    /// The head as measured.
    pub measured: Likely,
    /// Whoever gets here; `None` where none of the judges' heads do.
    pub here: Option<Likely>,
    /// Whoever is left after a fit (without reasons), and after each report, the most probable first.
    pub told: Vec<Told>,
}

/// Follows the reasons through a plan, and explains what is there.
pub(super) fn answer(making: Making<'_, '_, '_>, reasons: &[Reason]) -> Answer {
    let Making { catalogue, query, candidates, setting, search, chosen, judges } = making;
    let trail = way::follow(setting, search, chosen, catalogue.edges(), reasons);
    let others = match &trail.place {
        Place::Step(spot) => instead::others(setting, search, spot),
        _ => Vec::new(),
    };
    let step = match &trail.place {
        Place::Step(spot) => Some(spot.step),
        Place::Aside(target) => Some(target),
        Place::Nowhere(_) | Place::NoPlan => None,
    };
    let tried = trail.passed.iter().map(|passed| passed.candidate);
    let tried = tried.chain(step.into_iter().flat_map(policy::named));
    let seen = tried.chain(others.iter().flat_map(Other::tried)).sorted().dedup().collect_vec();
    let panel = Panel::new(catalogue, query, candidates, seen, judges);
    let (way, arrived) = trail.walk(&panel);
    let explain = |step: &Step| {
        let heads = likely::Heads { sets: judges, words: catalogue.shop.words };
        explain(&panel, &heads, step, &others, &arrived, setting.problem.terms.go_without).map(Box::new)
    };
    let found = match &trail.place {
        Place::Step(spot) => explain(spot.step).map(Found::Step),
        Place::Aside(target) => explain(target).map(Found::Aside),
        Place::Nowhere(nowhere) => Some(Found::Nowhere(*nowhere)),
        Place::NoPlan => None,
    };
    Answer { way, found: found.unwrap_or(Found::NoPlan) }
}

fn explain(
    panel: &Panel<'_>,
    heads: &likely::Heads<'_>,
    step: &Step,
    others: &[Other],
    here: &[Belief],
    go_without: f64,
) -> Option<StepWhy> {
    let bill = Bill::of(panel, Some(step), here, go_without);
    let whole = heads.of(&panel.whole(), None)?;
    let arrived = heads.of(here, Some(&whole));
    let fitted = panel.fitted(step.candidate, here);
    let reports = step.branches.iter().map(|(reports, _)| (*reports, panel.after(step.candidate, *reports, here)));
    Some(StepWhy {
        reach: Quote::of(here.iter().map(|belief| belief.mass)),
        step: panel.judge_from(step, here)?,
        minutes: bill.first_minutes(),
        rest: bill.rest(),
        instead: others.iter().map(|other| other.judged(panel, &bill, here, go_without)).collect(),
        leaving: Bill::of(panel, None, here, go_without).more_than(&bill),
        told: heads.told(arrived.as_ref(), here, &fitted, reports),
        measured: whole.likely(),
        here: arrived.map(|arrived| arrived.likely()),
    })
}
