//! What choices of somebody's own cost at a point of a session, against the plan.
//!
//! A choice is followed by the best that can then be done, so what it costs is its own doing, not that of later choices.
//! The heads that choose the plan choose what follows a choice, too; what is quoted comes from the judges, and
//! differences are taken judge by judge.

use super::choose::{Setting, choose};
use super::judge::{Panel, Tally};
use super::looked_at;
use super::midway::{Midway, Swap};
use super::policy;
use super::query::Query;
use crate::catalogue::Catalogue;
use crate::fit::{Candidate, HeadSet, Quote};
use crate::profile::Model;
use crate::unit::Id;
use itertools::Itertools;

/// Something to do at a point of a session.
#[derive(Debug, Clone, PartialEq)]
pub enum Choice<'a> {
    /// Fetch a model in a size.
    Helmet {
        /// The model.
        model: &'a Model,
        /// The label of the size.
        size: Id,
    },
    /// Put these pads, and no others, into a helmet that was on the head.
    Pads(Swap<'a>),
    /// Let the customer go without a helmet.
    Leave,
}

/// What a choice costs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weighed {
    /// Probability that it fits: a helmet with the pads on offer, pads as they are.
    pub fit: Quote,
    /// Minutes that it costs more than the plan over the whole rest of the session, going without counted. Below 0 where
    /// the judges find it better than what the choosing heads chose.
    pub more_minutes: Quote,
    /// Rounds on the head that it takes more; below 0 for whoever leaves early.
    pub more_tries: Quote,
    /// Probability of leaving without, more than by the plan.
    pub more_without: Quote,
}

/// Weighs choices at a point of a session, in their order. The arguments are those of [`super::go_on`]. A size that the
/// model doesn't have is weighed as leaving.
#[must_use]
pub fn weigh<'a>(
    catalogue: &'a Catalogue,
    query: &Query<'a>,
    midway: &Midway<'a>,
    chooser: &HeadSet,
    choices: &[Choice<'a>],
) -> Vec<Weighed> {
    let mut candidates = looked_at(catalogue, query, midway, chooser);
    let places = choices.iter().map(|choice| place(catalogue, choice, midway, &mut candidates)).collect_vec();
    let tried = chooser.try_all(catalogue, &query.customer, &candidates.iter().collect_vec());
    let setting = Setting::new(catalogue, query, &candidates, chooser, tried, midway);
    let mut search = setting.search();
    let chosen = choose(&setting, &mut search);
    search.rest();
    let root = search.root();
    let mut begin = |place: &Option<usize>| {
        let candidate = (*place)?;
        if let Some(plan) = chosen.plan.as_ref().filter(|plan| plan.candidate == candidate) {
            return Some(plan.clone());
        }
        let rules = (&setting.rules, setting.lead);
        Some(policy::begin_with(&mut search, &setting.problem, rules, &root, chosen.look_ahead, candidate))
    };
    let plans = places.iter().map(&mut begin).collect_vec();
    let judges = HeadSet::judges(catalogue, &query.customer);
    let seen = plans.iter().chain([&chosen.plan]).flatten().flat_map(policy::named).sorted().dedup().collect_vec();
    let panel = Panel::new(catalogue, query, &candidates, seen, &judges);
    let whole = panel.whole();
    let plan = panel.take(chosen.plan.as_ref(), &whole);
    let go_without = setting.problem.terms.go_without;
    let weighed = plans.iter().map(|own| Weighed {
        fit: own.as_ref().map_or_else(Quote::default, |own| panel.fit(own.candidate, &whole)),
        ..compared(&panel.take(own.as_ref(), &whole), &plan, go_without)
    });
    weighed.collect()
}

/// The place of a choice among the candidates, where it is added if it is not there; `None` to leave.
fn place<'a>(
    catalogue: &'a Catalogue,
    choice: &Choice<'a>,
    midway: &Midway<'a>,
    candidates: &mut Vec<Candidate<'a>>,
) -> Option<usize> {
    let own = match choice {
        Choice::Leave => return None,
        Choice::Helmet { model, size } => {
            let is_it = |known: &Candidate<'_>| known.model.id == model.id && known.size.label == *size;
            if let Some(known) = candidates.iter().position(is_it) {
                return Some(known);
            }
            Candidate::of_size(model, size, catalogue)?
        }
        Choice::Pads(swap) if midway.swap.as_ref().is_some_and(|known| known.is_alike(swap)) => {
            return midway.on_head(candidates);
        }
        Choice::Pads(swap) => swap.candidate(catalogue)?,
    };
    candidates.push(own);
    Some(candidates.len() - 1)
}

fn compared(own: &Tally, plan: &Tally, go_without: f64) -> Weighed {
    let more = |own: &[f64], plan: &[f64]| Quote::of(own.iter().zip(plan).map(|(own, plan)| own - plan));
    Weighed {
        fit: Quote::default(),
        more_minutes: more(&own.cost(go_without), &plan.cost(go_without)),
        more_tries: more(&own.tries, &plan.tries),
        more_without: more(&own.no_fit, &plan.no_fit),
    }
}
