//! What is said of a plan, on every kind of page.

use super::text::{mm, percent};
use crate::catalogue::Catalogue;
use crate::fit::{Candidate, JUDGES, PadSet};
use crate::plan::{Advice, Branch, JudgedStep, Lead, Pads, Plan, Query, Source};
use crate::profile::{Edge, Zone};
use itertools::Itertools;

/// Lines of the ranking that are shown.
pub(super) const RANKED: usize = 10;

/// A rule of the shop whose target fits more rarely than this is no help, and is not shown.
const HOPELESS_BELOW: f64 = 0.05;

/// Steps that fewer customers reach are not shown; the JSON document has them all.
const SHOWN_FROM: f64 = 0.005;

/// What stands in place of branches that are not shown.
pub(super) const RARER: &str = "rarer reasons, each in the JSON document";

/// What is said where there is no plan.
pub(super) const NO_PLAN: &str =
    "Nothing in this range is worth the minutes of a try. Loosen a filter, measure again, or order.";

/// A plan, and what it was made for.
#[derive(Debug, Clone, Copy)]
pub(super) struct PlanView<'a> {
    pub(super) catalogue: &'a Catalogue,
    pub(super) query: &'a Query<'a>,
    pub(super) plan: &'a Plan<'a>,
}

impl<'a> PlanView<'a> {
    /// A candidate of the plan.
    pub(super) fn candidate(&self, at: usize) -> &'a Candidate<'a> {
        &self.plan.candidates[at]
    }

    /// What the plan takes, beside the best fixed order, and how good it is.
    pub(super) fn expected(&self) -> String {
        let plan = self.plan;
        let totals = &plan.totals;
        format!(
            "Expected: {:.2}±{:.2} helmets tried, {:.1}±{:.1} minutes; nothing fits: {}. The best fixed order, which \
                 doesn't listen to reasons: {:.2} helmets, {:.1} minutes, nothing fits: {}. {}",
            totals.tries.value,
            rounded_up(totals.tries.error, 100.0),
            totals.minutes.value,
            rounded_up(totals.minutes.error, 10.0),
            percent(totals.no_fit.value),
            plan.fixed_order.tries.value,
            plan.fixed_order.minutes.value,
            percent(plan.fixed_order.no_fit.value),
            optimality(plan, self.query.lead)
        )
    }

    /// How the figures of the ranking are meant, and how sure they are.
    pub(super) fn ranking_note(&self) -> String {
        let plan = self.plan;
        let worst = plan.ranking.iter().take(RANKED).map(|ranked| ranked.fit.error).fold(0.0, f64::max);
        format!(
            "fits: with the pads on offer; at once: with the pads to start with, unswapped; near 0 it takes other pads, often in a size that nobody would start with. Prices in {}. \
             From {} sampled heads, each with its own errors of measures and profiles; sampling error at most {:.1} points.",
            self.catalogue.shop.currency,
            JUDGES as usize * self.query.customer.judged_heads(),
            worst * 100.0 + 0.05
        )
    }

    /// A much better helmet for which the time is too short.
    pub(super) fn left_out(&self) -> Option<String> {
        let limit = self.query.minutes?;
        let first = self.plan.first.as_ref()?;
        let better = self.plan.ranking.iter().find(|ranked| ranked.minutes > limit)?;
        let is_much_better = better.fit.value > first.fit.value + 0.1;
        is_much_better.then(|| {
            let title = self.candidate(better.candidate).title();
            let (fits, minutes) = (percent(better.fit.value), better.minutes);
            format!("The {limit} minutes leave out {title}, which fits {fits} and takes {minutes:.0} minutes.")
        })
    }

    /// What the other one, shop or computation, would have tried.
    pub(super) fn rival(&self, step: &JudgedStep) -> Option<String> {
        let (candidate, source, fit) = step.rival?;
        let title = self.candidate(candidate).title();
        let (own, other) = (percent(step.fit.value), percent(fit.value));
        Some(match source {
            Source::Computed => format!("computed alone: {title}, fits {other}; within the shop's margin of {own}"),
            Source::Rule(rule) => {
                let note = self.note(rule);
                format!("differs from the shop's rule: {title}, \"{note}\", fits {other} against {own}")
            }
        })
    }

    /// Who says what follows a branch, `depth` levels in; or why nothing does.
    pub(super) fn says(&self, branch: &Branch, depth: usize) -> String {
        match &branch.next {
            None => format!("stop here; {}", end(self.query, depth)),
            Some(next) => match next.source {
                Source::Computed => "computed".to_owned(),
                Source::Rule(rule) => format!("shop's rule: {}", self.note(rule)),
            },
        }
    }

    /// Rules of the shop for what no geometry tells, as far as they help: the rule, its target, and how often that fits a
    /// head that this step's helmet fits.
    pub(super) fn asides(&self, step: &JudgedStep) -> Vec<(&'a Edge, &'a Candidate<'a>, f64)> {
        let helpful = step.asides.iter().filter(|aside| aside.2.value >= HOPELESS_BELOW);
        helpful
            .filter_map(|(rule, target, fit)| {
                Some((self.catalogue.edges().get(*rule)?, self.candidate(*target), fit.value))
            })
            .collect()
    }

    fn note(&self, rule: usize) -> &'a str {
        self.catalogue.edges().get(rule).map_or("", |edge| &edge.note)
    }
}

/// What to measure next.
pub(super) fn advice(advice: &Advice) -> Option<String> {
    let best = advice.gains.first()?;
    let won = best.first_fit - advice.first_fit;
    let others = advice.gains[1..].iter().map(|gain| format!("{} {}", gain.measure.name(), percent(gain.first_fit)));
    let others = others.collect_vec();
    let rest = if others.is_empty() { String::new() } else { format!(" (with instead {})", others.join(", ")) };
    Some(if won < 0.015 {
        "another measurement hardly makes any helmet fit more often".to_owned()
    } else {
        format!(
            "the {}: the best-fitting helmet then fits with {} instead of {}{rest}; sd of the shape index {:.1} instead of {:.1}",
            best.measure.name(),
            percent(best.first_fit),
            percent(advice.first_fit),
            best.shape_sd,
            advice.shape_sd
        )
    })
}

/// The branches of a step that enough customers reach, and the probability of all the others where that is worth a word.
pub(super) fn shown_branches(step: &JudgedStep) -> (Vec<&Branch>, Option<f64>) {
    let is_shown = |branch: &&Branch| step.reach * branch.probability.value >= SHOWN_FROM;
    let (shown, others): (Vec<_>, Vec<_>) = step.branches.iter().partition(is_shown);
    let rest: f64 = others.iter().map(|branch| branch.probability.value).sum();
    (shown, (step.reach * rest >= SHOWN_FROM).then_some(rest))
}

/// What is heard on a branch: "it is loose at the sides"; `None` where several reasons share it.
pub(super) fn heard(branch: &Branch) -> Option<&'static str> {
    match branch.reasons.as_slice() {
        [one] => Some(one.words()),
        _ => None,
    }
}

/// The same with an "if"; `other` where several reasons share a branch.
pub(super) fn if_heard(branch: &Branch, other: &str) -> String {
    heard(branch).map_or_else(|| other.to_owned(), |words| format!("if {words}"))
}

/// Why a plan ends `depth` levels in.
#[must_use]
pub fn end(query: &Query<'_>, depth: usize) -> &'static str {
    if depth + 1 >= query.tries {
        "that was the last try of this plan"
    } else if query.lead == Lead::ShopOnly {
        "the shop has no rule for it"
    } else if query.minutes.is_some() {
        "nothing left is worth the minutes, or fits into those left"
    } else {
        "nothing left is worth the minutes"
    }
}

/// An error to as many steps in one, never rounded down to nothing.
pub(super) fn rounded_up(error: f64, steps: f64) -> f64 {
    (error * steps).ceil().max(1.0) / steps
}

fn optimality(plan: &Plan<'_>, lead: Lead) -> String {
    let good = &plan.optimality;
    if lead == Lead::ShopOnly {
        let more = (good.cost / good.computed - 1.0) * 100.0;
        return format!(
            "With going without counted, the shop's rules alone cost {more:.0} % more than the computed plan."
        );
    }
    if good.is_exact() {
        return "No plan is better (exact for the heads that chose it).".to_owned();
    }
    if good.gap() > 1.0 {
        return "No useful lower bound.".to_owned();
    }
    let rules = (good.cost - good.computed) / good.lower;
    let by_rules =
        if rules > 0.0005 { format!(", of which the shop's rules {:.1} %", rules * 100.0) } else { String::new() };
    let gap = match good.gap() {
        gap if gap < 0.0005 => "Less than 0.1".to_owned(),
        gap => format!("At most {:.1}", gap * 100.0),
    };
    format!("{gap} % above a lower bound{by_rules}.")
}

/// Which pads to mount and to bring.
pub(super) fn pads(known: &Candidate<'_>, pads: &Pads) -> String {
    let start = start(known, pads);
    let by_zone = pads.bring.iter().into_group_map_by(|(zone, _)| *zone);
    let mut bring = by_zone
        .iter()
        .sorted_by_key(|(zone, _)| **zone)
        .map(|(zone, all)| format!("{} {}", zone.name(), all.iter().map(|(_, mm)| self::mm(*mm)).join("/")));
    let bring = bring.join(", ");
    if bring.is_empty() { start } else { format!("{start}; bring {bring} mm") }
}

/// Which pads to mount.
pub(super) fn start(known: &Candidate<'_>, pads: &Pads) -> String {
    let changed = changed(&known.size.standard, &pads.start);
    if changed.is_empty() {
        return "standard pads".to_owned();
    }
    let mut words = changed.iter().map(|(zone, mm, word)| format!("{word} {} ({} mm)", zone.name(), self::mm(*mm)));
    format!("start with {}", words.join(", "))
}

/// The zones in which pads are not standard, with the trade's word for it.
pub(super) fn changed(standard: &PadSet, start: &PadSet) -> Vec<(Zone, f64, &'static str)> {
    let zones = start.iter().filter_map(|(zone, mm)| {
        let (mm, standard) = ((*mm)?, (*standard.get(zone))?);
        let word = if mm < standard { "thinner" } else { "thicker" };
        ((mm - standard).abs() > 1e-9).then_some((zone, mm, word))
    });
    zones.collect()
}
