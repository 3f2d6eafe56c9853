//! A plan as a tree of steps, and the weaving of the shop's own rules into it.

use super::Solution;
use super::belief::Belief;
use super::problem::{Problem, Reports};
use super::search::{Node, Search};
use std::collections::HashMap;

/// Steps that fewer customers reach name no rules beyond geometry: the plan would drown in them.
const ASIDES_FROM: f64 = 0.05;

/// Try a candidate; if it fails, go on by what was reported.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// What to try.
    pub candidate: usize,
    /// Who says so.
    pub source: Source,
    /// What the other one, shop or computation, would have tried instead.
    pub rival: Option<(usize, Source)>,
    /// What to do next, the most probable reports first; `None` where nothing more is worth trying.
    pub branches: Vec<(Reports, Option<Step>)>,
    /// Rules for what no geometry tells: `(rule, candidate)`, in the size that most often fits a head which the
    /// candidate of this step fits.
    pub asides: Vec<(usize, usize)>,
}

impl Step {
    /// A step that overrules nobody, and beside which no rules stand.
    pub(super) fn plain(candidate: usize, source: Source, branches: Vec<(Reports, Option<Self>)>) -> Self {
        Self { candidate, source, rival: None, branches, asides: Vec::new() }
    }
}

/// Who says what to try.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Source {
    /// The search.
    Computed,
    /// A rule of the shop: its place in the list of rules.
    Rule(usize),
}

/// Whether the shop's rules or the computation lead.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Lead {
    /// The shop's rules, unless the computed next try fits more often by more than the margin.
    ShopFirst,
    /// Only the shop's rules; where there is none, the plan ends.
    ShopOnly,
    /// Only the computation.
    ComputedOnly,
}

/// The shop's rules in numbers: after `(candidate, reason)` failed, `(rule, candidates that it allows)`.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Rules {
    /// The rules by what failed and how.
    pub after: HashMap<(usize, u8), Vec<Rule>>,
    /// The rules for what no geometry tells, by what was tried.
    pub aside: HashMap<usize, Vec<Rule>>,
    /// The rules for what failed before the plan begins; `None` where nothing has been tried yet.
    pub at_root: Option<Vec<Rule>>,
    /// The helmet on the head with other pads in it, where that is a candidate: worth it, it comes before any rule. Rules
    /// say where to go from a model that fails whatever the pads.
    pub on_head: Option<usize>,
    /// How much more often a computed try must fit to lead against a rule.
    pub margin: f64,
}

impl Rules {
    /// The rules for a candidate that failed so. Several reasons together have none: a rule answers one.
    pub(super) fn heard(&self, failed: usize, reports: Reports) -> &[Rule] {
        let after = reports.single().and_then(|number| self.after.get(&(failed, number)));
        after.map_or(&[], Vec::as_slice)
    }
}

/// One rule of the shop in numbers.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rule {
    /// Its place in the list of rules.
    pub number: usize,
    /// The candidates that it allows: sizes of its target.
    pub targets: Vec<usize>,
}

/// Builds the plan from a node on, and says what it costs: minutes of its tries times the probability of getting there,
/// and going without where it ends without a fit. `heard` are the shop's rules for the failure that led here; `None`
/// where nothing has been tried yet.
pub(super) fn build(
    search: &mut Search<'_>,
    problem: &Problem,
    rules: (&Rules, Lead),
    node: &Node,
    look_ahead: usize,
    heard: Option<&[Rule]>,
) -> (Option<Step>, f64) {
    let computed = search.bounds(node, look_ahead, f64::INFINITY).choice.map(|candidate| (candidate, Source::Computed));
    let rule = heard.and_then(|heard| best_rule(search, problem, heard, node));
    let is_on_head = computed.is_some_and(|(candidate, _)| rules.0.on_head == Some(candidate));
    let (first, rival) = match rules.1 {
        _ if is_on_head => (computed, None),
        Lead::ComputedOnly => (computed, None),
        Lead::ShopOnly if heard.is_some() => (rule, None),
        Lead::ShopOnly => (computed, None),
        Lead::ShopFirst => leader(problem, rules.0.margin, &node.belief, rule, computed),
    };
    let Some((candidate, source)) = first else { return (None, problem.terms.go_without * node.belief.mass) };
    let (branches, cost) = after(search, problem, rules, node, look_ahead, candidate);
    let asides = if node.belief.mass >= ASIDES_FROM { asides(problem, rules.0, node, candidate) } else { Vec::new() };
    let rival = rival.filter(|(other, _)| *other != candidate);
    (Some(Step { candidate, source, rival, branches, asides }), cost)
}

/// What to do when a try at a node fails, by what is reported, and what the try and everything after it costs.
pub(super) fn after(
    search: &mut Search<'_>,
    problem: &Problem,
    rules: (&Rules, Lead),
    node: &Node,
    look_ahead: usize,
    candidate: usize,
) -> (Vec<(Reports, Option<Step>)>, f64) {
    let ahead = look_ahead_after(look_ahead);
    let (mut cost, children) = search.children(node, candidate);
    let mut branches = Vec::with_capacity(children.len());
    for (reports, child) in children {
        let (next, rest) = build(search, problem, rules, &child, ahead, Some(rules.0.heard(candidate, reports)));
        cost += rest;
        branches.push((reports, next));
    }
    (branches, cost)
}

/// The plan from a node on that tries this first, and goes on as plans do.
pub(super) fn begin_with(
    search: &mut Search<'_>,
    problem: &Problem,
    rules: (&Rules, Lead),
    node: &Node,
    look_ahead: usize,
    candidate: usize,
) -> Step {
    let (branches, _) = after(search, problem, rules, node, look_ahead, candidate);
    Step::plain(candidate, Source::Computed, branches)
}

/// How far a plan looks ahead one step further on.
pub(super) fn look_ahead_after(look_ahead: usize) -> usize {
    look_ahead.saturating_sub(1).max(1)
}

/// The best plan that a search finds by itself, what it costs, and what every plan costs at least.
pub(super) fn computed(search: &mut Search<'_>, problem: &Problem) -> Solution {
    let (bounds, look_ahead) = search.solve();
    search.rest();
    let root = search.root();
    let (plan, cost) = build(search, problem, (&Rules::default(), Lead::ComputedOnly), &root, look_ahead, None);
    Solution { plan, cost, lower: bounds.lower }
}

/// Every candidate that a plan names.
pub(super) fn named(plan: &Step) -> Vec<usize> {
    let mut named = vec![plan.candidate];
    named.extend(plan.rival.iter().map(|(candidate, _)| *candidate));
    named.extend(plan.asides.iter().map(|(_, candidate)| *candidate));
    named.extend(plan.branches.iter().filter_map(|(_, next)| next.as_ref()).flat_map(self::named));
    named
}

/// Every candidate that a plan tries.
pub(super) fn tried(plan: &Step) -> Vec<usize> {
    let mut tried = vec![plan.candidate];
    tried.extend(plan.branches.iter().filter_map(|(_, next)| next.as_ref()).flat_map(self::tried));
    tried
}

/// For each rule beyond geometry its target in the size that fits the most of the heads which `candidate` fits.
pub(super) fn asides(problem: &Problem, rules: &Rules, node: &Node, candidate: usize) -> Vec<(usize, usize)> {
    let fitting = node.belief.keep(|row| problem.outcome[candidate][row] == 0);
    let fits = |target: &usize| fitting.fit_probability(&problem.outcome[*target]);
    let best = |targets: &[usize]| {
        let reached = targets.iter().map(|target| (fits(target), *target)).filter(|(fits, _)| *fits > 0.0);
        reached.max_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, target)| target)
    };
    let here = rules.aside.get(&candidate).into_iter().flatten();
    here.filter_map(|rule| best(&rule.targets).map(|target| (rule.number, target))).collect()
}

/// What a plan costs, counted anew: minutes of its tries, plus going without where it ends without a fit.
#[cfg(test)]
pub(super) fn cost(problem: &Problem, plan: Option<&Step>, belief: &Belief) -> f64 {
    let Some(step) = plan else { return problem.terms.go_without * belief.mass };
    let split = belief.split(problem, step.candidate);
    let branches = step.branches.iter();
    split.minutes
        + branches.map(|(reports, next)| cost(problem, next.as_ref(), &split.after(problem, *reports))).sum::<f64>()
}

type Choice = Option<(usize, Source)>;

/// The shop's rule, unless the computed try fits more often by more than the margin, or nothing is worth its minutes.
fn leader(problem: &Problem, margin: f64, belief: &Belief, rule: Choice, computed: Choice) -> (Choice, Choice) {
    let fits =
        |choice: Choice| choice.map_or(0.0, |(candidate, _)| belief.fit_probability(&problem.outcome[candidate]));
    let Some((candidate, _)) = rule else { return (computed, None) };
    let minutes = belief.sum(&problem.minutes[candidate]) / belief.mass;
    let worth_it = computed.is_some() || fits(rule) * problem.terms.go_without > minutes;
    if !worth_it || fits(computed) > fits(rule) + margin { (computed, rule) } else { (rule, computed) }
}

/// The rule for this failure whose target fits most often, in the size that does.
fn best_rule(search: &Search<'_>, problem: &Problem, heard: &[Rule], node: &Node) -> Choice {
    let mut best: Option<(f64, usize, Source)> = None;
    for rule in heard {
        for target in rule.targets.iter().filter(|target| search.allows(node, **target)) {
            let fits = node.belief.fit_probability(&problem.outcome[*target]);
            if fits > best.map_or(0.0, |best| best.0) {
                best = Some((fits, *target, Source::Rule(rule.number)));
            }
        }
    }
    best.map(|(_, candidate, source)| (candidate, source))
}
