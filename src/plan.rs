//! The plan: from a head to what to try first, what to bring, and what to try next for every reason.
//!
//! One set of heads chooses (the short list, the search, the shop's rules); eight fresh sets judge, and only
//! their figures are quoted, with the scatter between them as the error.

mod advice;
mod belief;
mod choose;
mod cover;
mod judge;
mod midway;
mod policy;
mod problem;
mod query;
mod ranking;
mod search;
mod weigh;
mod why;

pub(crate) use advice::advise;
pub(crate) use belief::{Belief, Split};

pub use advice::{Advice, Gain};
pub use choose::Optimality;
pub use judge::{Branch, JudgedStep, Pads, Totals};
pub use midway::{Failed, Midway, Swap};
pub use policy::{Lead, Rule, Rules, Source, Step};
pub use problem::{Fold, Problem, Reports, Terms};
pub use query::Query;
pub use ranking::Ranked;
pub use search::Effort;
pub use weigh::{Choice, Weighed, weigh};
pub use why::{
    Answer, Found, Instead, Likely, Moved, Nowhere, NowhereKind, Passed, Role, Shares, StepWhy, ToCome, Told, Verdict,
    is_felt,
};

use crate::catalogue::Catalogue;
use crate::fit::{Candidate, Estimate, HeadSet, estimate};
use crate::head::PARTICLES;
use crate::profile::Reason;
use choose::{Chosen, Setting};
use itertools::Itertools;
use search::Search;

/// Heads that every candidate meets before it is looked at closely.
const SCREENING_HEADS: usize = PARTICLES / 16;

/// A candidate that fits fewer of them is left out.
const SCREENED_FROM: f64 = 0.01;

/// Candidates that are looked at closely; as many as a shop of thirty models has for one head.
const SCREENED: usize = 64;

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

/// A solved [`Problem`].
#[derive(Debug, Clone, PartialEq)]
pub struct Solution {
    /// The best plan that was found; `None` where stopping at once is best.
    pub plan: Option<Step>,
    /// What it costs: minutes of the tries, plus going without where it ends without a fit.
    pub cost: f64,
    /// No plan costs less.
    pub lower: f64,
}

/// Solves a planning problem by itself, without helmets and rules.
///
/// With [`Effort::WHOLE`] and nothing folded the plan is the best one, and `cost` equals `lower`; that takes time
/// exponential in tries and candidates; less of it where rows that are alike were [merged](Problem::merged). The method and its sources are in docs/method.md.
#[must_use]
pub fn solve(problem: &Problem, effort: Effort) -> Solution {
    policy::computed(&mut Search::new(problem, effort), problem)
}

/// The planning problem of a query, without helmets, and the effort that [`plan`] gives to it: for whoever wants to
/// solve it in another way and compare.
#[must_use]
pub fn posed(catalogue: &Catalogue, query: &Query<'_>) -> (Problem, Effort) {
    let chooser = HeadSet::chooser(catalogue, &query.customer);
    let candidates = looked_at(catalogue, query, &Midway::default(), &chooser);
    let tried = chooser.try_all(catalogue, &query.customer, &candidates.iter().collect_vec());
    choose::posed(catalogue, query, &chooser, tried)
}

/// Makes the plan. The same query gives the same plan on every machine.
#[must_use]
pub fn plan<'a>(catalogue: &'a Catalogue, query: &Query<'a>) -> Plan<'a> {
    begin(catalogue, query, |_| ()).0
}

/// Plans the rest of a session that has begun. What was heard so far stands in the query: worn helmets for the head,
/// absent sizes for what is out, tries and minutes that are left.
/// `chooser` is the customer's [choosing set](HeadSet::chooser). Returns the heads that judged it, too.
#[must_use]
pub fn go_on<'a>(
    catalogue: &'a Catalogue,
    query: &Query<'a>,
    midway: &Midway<'a>,
    chooser: &HeadSet,
) -> (Plan<'a>, Vec<HeadSet>) {
    make(catalogue, query, (midway, chooser), |making| making.judges.to_vec())
}

/// Makes the plan, and explains the step that it reaches after these reasons were reported, one after the other.
#[must_use]
pub fn explain<'a>(catalogue: &'a Catalogue, query: &Query<'a>, reasons: &[Reason]) -> (Plan<'a>, Answer) {
    begin(catalogue, query, |making| why::answer(making, reasons))
}

/// A plan that was chosen and will be judged, with all that it was chosen from.
struct Making<'m, 's, 'a> {
    catalogue: &'m Catalogue,
    query: &'m Query<'a>,
    candidates: &'m [Candidate<'a>],
    setting: &'s Setting,
    search: &'m mut Search<'s>,
    chosen: &'m Chosen,
    judges: &'m [HeadSet],
}

/// Makes the plan of a session that begins; see [`make`].
fn begin<'a, T>(
    catalogue: &'a Catalogue,
    query: &Query<'a>,
    ask: impl FnOnce(Making<'_, '_, 'a>) -> T,
) -> (Plan<'a>, T) {
    let chooser = HeadSet::chooser(catalogue, &query.customer);
    make(catalogue, query, (&Midway::default(), &chooser), ask)
}

/// Makes the plan, and asks for more while everything is at hand.
fn make<'a, T>(
    catalogue: &'a Catalogue,
    query: &Query<'a>,
    (midway, chooser): (&Midway<'a>, &HeadSet),
    ask: impl FnOnce(Making<'_, '_, 'a>) -> T,
) -> (Plan<'a>, T) {
    let customer = &query.customer;
    let candidates = looked_at(catalogue, query, midway, chooser);
    let tried = chooser.try_all(catalogue, customer, &candidates.iter().collect_vec());
    let listed = ranking::listed(chooser, &tried);
    let advice = advice::advise(customer, chooser, &tried, |measure| advice::by_staff(catalogue, measure));
    let setting = Setting::new(catalogue, query, &candidates, chooser, tried, midway);
    let mut search = setting.search();
    let chosen = choose::choose(&setting, &mut search);
    let judges = HeadSet::judges(catalogue, customer);
    let answer = ask(Making {
        catalogue,
        query,
        candidates: &candidates,
        setting: &setting,
        search: &mut search,
        chosen: &chosen,
        judges: &judges,
    });
    let fixed_order = choose::fixed_order(&setting, search);
    let seen = [chosen.plan.as_ref(), fixed_order.as_ref()].into_iter().flatten().flat_map(policy::named);
    let seen =
        seen.chain(listed.iter().take(ranking::JUDGED).map(|(candidate, _)| *candidate)).sorted().dedup().collect_vec();
    let panel = judge::Panel::new(catalogue, query, &candidates, seen, &judges);
    let (first, totals) = panel.judge(chosen.plan.as_ref());
    let (_, fixed_order) = panel.judge(fixed_order.as_ref());
    let plan = Plan {
        head: estimate(catalogue, &customer.head, &judges),
        ranking: ranking::rank(&panel, &listed),
        first,
        totals,
        fixed_order,
        optimality: chosen.optimality,
        advice,
        candidates,
    };
    (plan, answer)
}

/// What a plan is made of, before any judge sees it: for whoever has judges of their own.
#[derive(Debug, Clone)]
pub(crate) struct Draft<'a> {
    /// What can be tried, in the order that the steps refer to.
    pub(crate) candidates: Vec<Candidate<'a>>,
    /// The one that fits most often before anything is tried; `None` where nothing fits.
    pub(crate) best: Option<usize>,
    /// The plan.
    pub(crate) plan: Option<Step>,
    /// The best order that doesn't listen to reasons.
    pub(crate) fixed_order: Option<Step>,
}

/// Chooses as [`plan()`] does, and stops there.
pub(crate) fn draft<'a>(catalogue: &'a Catalogue, query: &Query<'a>) -> Draft<'a> {
    let chooser = HeadSet::chooser(catalogue, &query.customer);
    let candidates = looked_at(catalogue, query, &Midway::default(), &chooser);
    let tried = chooser.try_all(catalogue, &query.customer, &candidates.iter().collect_vec());
    let best = ranking::listed(&chooser, &tried).first().map(|(candidate, _)| *candidate);
    let setting = Setting::new(catalogue, query, &candidates, &chooser, tried, &Midway::default());
    let mut search = setting.search();
    let plan = choose::choose(&setting, &mut search).plan;
    let fixed_order = choose::fixed_order(&setting, search);
    Draft { candidates, best, plan, fixed_order }
}

/// The candidates that the choosing heads look at closely.
fn looked_at<'a>(
    catalogue: &'a Catalogue,
    query: &Query<'a>,
    midway: &Midway<'a>,
    chooser: &HeadSet,
) -> Vec<Candidate<'a>> {
    let everything = Candidate::but_for(&query.absent, &query.models, catalogue);
    let mut candidates = screened(catalogue, query, chooser, everything);
    candidates.extend(midway.swap.as_ref().and_then(|swap| swap.candidate(catalogue)));
    candidates
}

/// The candidates that are looked at closely: at most [`SCREENED`], and none that fits hardly any head.
fn screened<'a>(
    catalogue: &Catalogue,
    query: &Query<'_>,
    chooser: &HeadSet,
    everything: Vec<Candidate<'a>>,
) -> Vec<Candidate<'a>> {
    // With evidence from helmets only a few of so few heads would count.
    let few = chooser.first(if query.customer.worn.is_empty() { SCREENING_HEADS } else { PARTICLES });
    let tried = few.try_all(catalogue, &query.customer, &everything.iter().collect_vec());
    let picked = cover::pick(&few.heads.weight, &tried.reason, SCREENED_FROM, SCREENED / 3 * 2, SCREENED);
    let mut kept = vec![false; everything.len()];
    picked.into_iter().for_each(|candidate| kept[candidate] = true);
    everything.into_iter().zip(kept).filter(|(_, kept)| *kept).map(|(candidate, _)| candidate).collect()
}
