//! Why a step of the plan is what it is: what else could be tried there, what each would take, and whose heads are
//! left. Asked for by itself; a plan that nobody asks about costs nothing more.
//!
//! The heads that chose the plan choose the alternatives, too; what is quoted comes from the judges, and differences
//! are taken judge by judge, so that most of the scatter drops out.

mod bill;
mod instead;
mod likely;
mod way;

pub use bill::{Shares, ToCome};
pub use instead::{Instead, Role, Verdict, is_felt};
pub use likely::{Likely, Moved, Told};
pub use way::{Nowhere, NowhereKind, Passed};

use super::Making;
use super::judge::{JudgedStep, Panel};
use super::policy::{self, Step};
use crate::fit::Quote;
use crate::profile::Reason;
use bill::Cashier;
use instead::Other;
use itertools::Itertools;
use likely::Heads;
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
    pub rest: ToCome,
    /// Minutes to come after a failure where nobody hears why it fails, going without counted.
    pub unheard: Quote,
    /// How many of them hearing saves.
    pub hearing: Quote,
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
    let topic = match &trail.place {
        Place::Step(spot) => Some(Topic {
            step: spot.step,
            unheard: instead::unheard(setting, &spot.node, spot.step),
            others: instead::others(setting, search, spot),
        }),
        Place::Aside(target) => Some(Topic { step: target, unheard: target.clone(), others: Vec::new() }),
        Place::Nowhere(_) | Place::NoPlan => None,
    };
    let seen = trail.tried().chain(topic.iter().flat_map(Topic::tried)).sorted().dedup().collect_vec();
    let panel = Panel::new(catalogue, query, candidates, seen, judges);
    let (way, here) = trail.walk(&panel);
    let heads = Heads { sets: judges, words: catalogue.shop.words };
    let cashier = Cashier { panel: &panel, here: &here, go_without: setting.problem.terms.go_without };
    let explained = topic.and_then(|topic| topic.explain(&cashier, &heads)).map(Box::new);
    let found = match (trail.place, explained) {
        (Place::Step(_), Some(why)) => Found::Step(why),
        (Place::Aside(_), Some(why)) => Found::Aside(why),
        (Place::Nowhere(nowhere), _) => Found::Nowhere(nowhere),
        _ => Found::NoPlan,
    };
    Answer { way, found }
}

/// What is explained, as the choosing heads have it.
struct Topic<'t> {
    step: &'t Step,
    /// The step where nobody hears why it fails.
    unheard: Step,
    others: Vec<Other>,
}

impl Topic<'_> {
    /// Every candidate that is named in it.
    fn tried(&self) -> Vec<usize> {
        let own = policy::named(self.step).into_iter().chain(policy::tried(&self.unheard));
        own.chain(self.others.iter().flat_map(Other::tried)).collect()
    }

    fn explain(&self, cashier: &Cashier<'_>, heads: &Heads<'_>) -> Option<StepWhy> {
        let Cashier { panel, here, .. } = *cashier;
        let step = self.step;
        let bill = cashier.bill(step, &self.unheard);
        let measured = heads.of(&panel.whole(), None)?;
        let arrived = heads.of(here, Some(&measured));
        let fitted = panel.fitted(step.candidate, here);
        let reports = step.branches.iter().map(|(reports, _)| (*reports, panel.after(step.candidate, *reports, here)));
        Some(StepWhy {
            reach: Quote::of(here.iter().map(|belief| belief.mass)),
            step: panel.judge_from(step, here)?,
            minutes: bill.first_minutes(),
            rest: bill.to_come(),
            unheard: bill.unheard(),
            hearing: bill.hearing(),
            instead: self.others.iter().map(|other| other.judged(cashier, &bill)).collect(),
            leaving: cashier.leaving(&bill),
            told: heads.told(arrived.as_ref(), here, &fitted, reports),
            measured: measured.likely(),
            here: arrived.map(|arrived| arrived.likely()),
        })
    }
}
