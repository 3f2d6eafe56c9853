//! Choosing the plan on one set of heads.

use super::midway::Midway;
use super::policy::{self, Lead, Rule, Rules, Step};
use super::problem::{Fold, Problem, Terms};
use super::query::Query;
use super::search::{Effort, Search};
use crate::catalogue::Catalogue;
use crate::fallback::{Fallbacks, allows_size};
use crate::fit::{Candidate, HeadSet, Outcomes};
use crate::profile::{Nature, Reason};
use itertools::Itertools;

/// Up to so many candidates the plan has a branch for every reason, and is mostly the best one.
const EXACT_UP_TO: usize = 14;

/// Up to so many tries: beyond, such a plan would have more steps than a document can hold.
const EXACT_TRIES: usize = 6;

/// What that search may do. With four tries it ends long before.
const EXACT_EFFORT: Effort = Effort { work: 200_000_000, ..Effort::WHOLE };

/// What the search may do with more to try. Thirty times as much would bring the plan a thousandth nearer to its bound.
const EFFORT: Effort = Effort { work: 2_000_000, ..Effort::WHOLE };

/// What a plan is chosen from: everything but the search itself, which borrows it.
pub(super) struct Setting {
    pub(super) problem: Problem,
    pub(super) rules: Rules,
    pub(super) lead: Lead,
    pub(super) effort: Effort,
}

/// What was chosen.
pub(super) struct Chosen {
    pub(super) plan: Option<Step>,
    /// How far the search looked ahead.
    pub(super) look_ahead: usize,
    pub(super) optimality: Optimality,
}

/// How good a plan is, on the heads that chose it. Costs in minutes, going without included.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Optimality {
    /// What the plan costs.
    pub cost: f64,
    /// What it would cost without the shop's rules.
    pub computed: f64,
    /// What every plan costs at least.
    pub lower: f64,
}

impl Optimality {
    /// How far the plan may be above the best one, as a share of the bound.
    #[must_use]
    pub fn gap(&self) -> f64 {
        if self.lower > 0.0 { ((self.cost - self.lower) / self.lower).max(0.0) } else { 0.0 }
    }

    /// Whether no plan is better.
    #[must_use]
    pub fn is_exact(&self) -> bool {
        self.gap() < 1e-9
    }
}

impl Setting {
    pub(super) fn new(
        catalogue: &Catalogue,
        query: &Query<'_>,
        candidates: &[Candidate<'_>],
        heads: &HeadSet,
        tried: Outcomes,
        midway: &Midway<'_>,
    ) -> Self {
        let (problem, effort) = posed(catalogue, query, heads, tried);
        let rules = Rules {
            at_root: midway.heard(catalogue, candidates),
            on_head: midway.on_head(candidates),
            ..rules(catalogue, candidates)
        };
        Self { problem, rules, lead: query.lead, effort }
    }

    pub(super) fn search(&self) -> Search<'_> {
        Search::new(&self.problem, self.effort)
    }
}

/// Chooses the plan.
pub(super) fn choose(setting: &Setting, search: &mut Search<'_>) -> Chosen {
    let problem = &setting.problem;
    let (bounds, look_ahead) = search.solve();
    search.rest();
    let root = search.root();
    let mut follow = |lead| {
        policy::build(search, problem, (&setting.rules, lead), &root, look_ahead, setting.rules.at_root.as_deref())
    };
    let (computed, its_cost) = follow(Lead::ComputedOnly);
    let (plan, cost) = if setting.lead == Lead::ComputedOnly { (computed, its_cost) } else { follow(setting.lead) };
    let optimality = Optimality { cost, computed: its_cost, lower: bounds.lower };
    Chosen { plan, look_ahead, optimality }
}

/// The best order that hears only that a try failed, not why.
pub(super) fn fixed_order(setting: &Setting, search: Search<'_>) -> Option<Step> {
    policy::computed(&mut search.deaf(), &setting.problem).plan
}

/// The problem that the search gets, and how much it may do.
pub(super) fn posed(catalogue: &Catalogue, query: &Query<'_>, heads: &HeadSet, tried: Outcomes) -> (Problem, Effort) {
    let full = problem(catalogue, query, heads, tried.reason, tried.minutes);
    let mut problem = if full.is_worth_merging() { full.merged() } else { full };
    if problem.candidates() > EXACT_UP_TO || query.tries > EXACT_TRIES {
        return (problem, EFFORT);
    }
    problem.terms.fold = Fold::NONE;
    (problem, EXACT_EFFORT)
}

/// The planning problem of a set of heads with these outcomes.
pub(super) fn problem(
    catalogue: &Catalogue,
    query: &Query<'_>,
    heads: &HeadSet,
    outcome: Vec<Vec<u8>>,
    minutes: Vec<Vec<f64>>,
) -> Problem {
    Problem {
        weight: heads.heads.weight.clone(),
        outcome,
        minutes,
        reasons: u8::try_from(Reason::GEOMETRIC).unwrap_or(u8::MAX),
        terms: terms(catalogue, query),
    }
}

/// How plans are made for a query.
fn terms(catalogue: &Catalogue, query: &Query<'_>) -> Terms {
    let session = &catalogue.shop.session;
    Terms {
        misreport: catalogue.shop.misreport,
        go_without: catalogue.shop.minutes.go_without,
        tries: query.tries,
        minutes: query.minutes,
        // The shop's rules know no "else": followed alone, every reason keeps its branch.
        fold: if query.lead == Lead::ShopOnly {
            Fold::NONE
        } else {
            Fold { below: session.fold_below, share: session.fold_share }
        },
    }
}

/// The shop's rules as candidates: for each size that fails, the sizes of the next model that a rule allows.
fn rules(catalogue: &Catalogue, candidates: &[Candidate<'_>]) -> Rules {
    let fallbacks = Fallbacks::new(catalogue.edges());
    let mut rules = Rules { margin: catalogue.shop.session.shop_rule_margin, ..Rules::default() };
    for (failed, candidate) in candidates.iter().enumerate() {
        for (rule, edge) in fallbacks.from(&candidate.model.id) {
            let allowed = |next: &Candidate<'_>| {
                next.model.id == edge.to && allows_size(edge, candidate.size, next.model, next.size)
            };
            let rule = Rule { number: rule, targets: candidates.iter().positions(allowed).collect() };
            match Reason::geometric().iter().zip(1..).find(|(reason, _)| **reason == edge.reason) {
                Some((_, number)) => rules.after.entry((failed, number)).or_default().push(rule),
                None if edge.reason.nature() == Nature::Experience => {
                    rules.aside.entry(failed).or_default().push(rule);
                }
                // A stop is heard as "loose all round": its own rules wait for a session that has heard it.
                None => {}
            }
        }
    }
    rules
}
