//! The plan: from a head to what to try first, what to bring, and what to try next for every reason.
//!
//! One set of heads chooses (the short list, the search, the shop's rules); eight fresh sets judge, and only
//! their figures are quoted, with the scatter between them as the error.

mod advice;
mod belief;
mod choose;
mod heads;
mod judge;
mod policy;
mod problem;
mod query;
mod ranking;
mod search;

pub use advice::{Advice, Gain};
pub use choose::Optimality;
pub use heads::Estimate;
pub use judge::{Branch, JudgedStep, Pads, Quote, Totals};
pub use policy::{Lead, Rules, Source, Step};
pub use problem::{Problem, Reports, Terms};
pub use query::{Query, Worn};
pub use ranking::Ranked;
pub use search::Effort;

use crate::catalogue::Catalogue;
use crate::fit::Candidate;
use crate::head::PARTICLES;
use heads::HeadSet;
use itertools::Itertools;

/// Sets of fresh heads that judge a plan; their scatter is the error that is quoted.
pub const JUDGES: u32 = 8;

/// Heads in each of those sets: 16384 in all, four times as many as chose the plan.
pub const JUDGED_HEADS: usize = 2048;

/// A plan with everything that is quoted about it.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan<'a> {
    /// What can be tried, in the order that the indices below refer to.
    pub candidates: Vec<Candidate<'a>>,
    /// The head as inferred.
    pub head: Estimate,
    /// Candidates by fit probability, the best first.
    pub ranking: Vec<Ranked>,
    /// The plan; `None` where nothing is worth trying.
    pub first: Option<JudgedStep>,
    /// What the plan takes.
    pub totals: Totals,
    /// What the best fixed order takes, which doesn't listen to reasons.
    pub fixed_order: Totals,
    /// How good the plan is.
    pub optimality: Optimality,
    /// What to measure next.
    pub advice: Advice,
}

/// Makes the plan. The same query gives the same plan on every machine.
#[must_use]
pub fn plan<'a>(catalogue: &'a Catalogue, query: &Query<'a>) -> Plan<'a> {
    let chooser = HeadSet::draw(catalogue, query, PARTICLES, 0);
    let everything = Candidate::of_models(query.models.iter().copied(), catalogue);
    let candidates = chooser.screen(catalogue, query, everything);
    let tried = chooser.try_all(catalogue, query, &candidates.iter().collect_vec());
    let chosen = choose::choose(catalogue, query, &candidates, &chooser, &tried);

    let judges = (1..=JUDGES).map(|scramble| HeadSet::draw(catalogue, query, JUDGED_HEADS, scramble)).collect_vec();
    let listed = ranking::listed(&chooser, &tried);
    let seen = [chosen.plan.as_ref(), chosen.fixed_order.as_ref()].into_iter().flatten().flat_map(policy::named);
    let seen =
        seen.chain(listed.iter().take(ranking::JUDGED).map(|(candidate, _)| *candidate)).sorted().dedup().collect_vec();
    let panel = judge::Panel::new(catalogue, query, &candidates, seen, &judges);
    let (first, totals) = panel.judge(chosen.plan.as_ref());
    let (_, fixed_order) = panel.judge(chosen.fixed_order.as_ref());
    Plan {
        head: heads::estimate(&query.head, &judges),
        ranking: ranking::rank(&panel, &listed),
        first,
        totals,
        fixed_order,
        optimality: chosen.optimality,
        advice: advice::advise(catalogue, query, &chooser, &tried),
        candidates,
    }
}
