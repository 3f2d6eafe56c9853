//! The plan for people.

use super::head::head;
use super::page::{Page, bold, fixed, mm, percent};
use crate::catalogue::Catalogue;
use crate::fit::{Candidate, JUDGES, PadSet};
use crate::plan::{Advice, Branch, JudgedStep, Lead, Pads, Plan, Query, Source};
use crate::profile::Zone;
use crate::render::json::Warning;
use itertools::Itertools;

/// Lines of the ranking that are shown.
const RANKED: usize = 10;

/// A rule of the shop whose target fits more rarely than this is no help, and is not printed.
const HOPELESS_BELOW: f64 = 0.05;

/// Steps that fewer customers reach are not printed; the JSON document has them all.
const SHOWN_FROM: f64 = 0.005;

/// The plan as a page.
#[must_use]
pub fn plan(
    catalogue: &Catalogue,
    query: &Query<'_>,
    plan: &Plan<'_>,
    warnings: &[Warning],
    cautions: &[&str],
) -> String {
    let view = View { query, catalogue, candidates: &plan.candidates };
    let mut page = Page::default();
    page.warnings(warnings.iter().map(|warning| warning.message.as_str()));
    head(&mut page, catalogue, &query.customer, &plan.head);
    advice(&mut page, &plan.advice);
    view.ranking(&mut page, plan);
    view.plan(&mut page, plan);
    page.cautions(cautions);
    page.finish()
}

struct View<'a> {
    query: &'a Query<'a>,
    catalogue: &'a Catalogue,
    candidates: &'a [Candidate<'a>],
}

fn advice(page: &mut Page, advice: &Advice) {
    let Some(best) = advice.gains.first() else { return };
    let won = best.first_fit - advice.first_fit;
    let others = advice.gains[1..].iter().map(|gain| format!("{} {}", gain.measure.name(), percent(gain.first_fit)));
    let others = others.collect_vec();
    let rest = if others.is_empty() { String::new() } else { format!(" (with instead {})", others.join(", ")) };
    let text = if won < 0.015 {
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
    };
    page.wrapped("  measure   ", &text);
}

impl View<'_> {
    fn ranking(&self, page: &mut Page, plan: &Plan<'_>) {
        page.heading("RANKING by the chance of a good fit, before anything is tried");
        if plan.ranking.is_empty() {
            page.line("  nothing fits such a head at all often");
            return;
        }
        page.line("     model and size               type         fits  at once  minutes     price");
        for (at, ranked) in plan.ranking.iter().take(RANKED).enumerate() {
            let known = &self.candidates[ranked.candidate];
            page.line(&format!(
                "{:>3}. {} {} {:>5}  {:>7}  {:>7.0}  {:>8}",
                at + 1,
                fixed(&known.title(), 28),
                fixed(known.model.kind.name(), 11),
                percent(ranked.fit.value),
                percent(ranked.pads.fit_at_once.value),
                ranked.minutes,
                known.model.price.to_string(),
            ));
        }
        let worst = plan.ranking.iter().take(RANKED).map(|ranked| ranked.fit.error).fold(0.0, f64::max);
        let words = format!(
            "fits: with the pads on offer; at once: with the pads to start with, unswapped; near 0 it takes other pads, often in a size that nobody would start with. Prices in {}. \
             From {} sampled heads, each with its own errors of measures and profiles; sampling error at most {:.1} points.",
            self.catalogue.shop.currency,
            JUDGES as usize * self.query.customer.judged_heads(),
            worst * 100.0 + 0.05
        );
        page.wrapped("     ", &words);
    }

    fn plan(&self, page: &mut Page, plan: &Plan<'_>) {
        page.heading("PLAN");
        let Some(first) = &plan.first else {
            page.wrapped(
                "  ",
                "Nothing in this range is worth the minutes of a try. Loosen a filter, measure again, or order.",
            );
            return;
        };
        let totals = &plan.totals;
        page.wrapped(
            "  ",
            &format!(
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
            ),
        );
        if let Some(left_out) = self.left_out(plan, first) {
            page.wrapped("  ", &left_out);
        }
        page.line("");
        self.step(page, first, 0);
    }

    /// A much better helmet for which the time is too short.
    fn left_out(&self, plan: &Plan<'_>, first: &JudgedStep) -> Option<String> {
        let limit = self.query.minutes?;
        let better = plan.ranking.iter().find(|ranked| ranked.minutes > limit)?;
        let is_much_better = better.fit.value > first.fit.value + 0.1;
        is_much_better.then(|| {
            let title = self.candidates[better.candidate].title();
            let (fits, minutes) = (percent(better.fit.value), better.minutes);
            format!("The {limit} minutes leave out {title}, which fits {fits} and takes {minutes:.0} minutes.")
        })
    }

    /// A step and what follows it, `depth` levels in.
    fn step(&self, page: &mut Page, step: &JudgedStep, depth: usize) {
        let indent = " ".repeat(2 + 3 * depth);
        let known = &self.candidates[step.candidate];
        let first = format!("{indent}{}. {} ", depth + 1, bold(&known.title()));
        let hang = indent.len() + 3;
        page.hanging(&first, hang, &format!("- fits {}, {:.0} minutes", percent(step.fit.value), step.minutes));
        page.hanging(&" ".repeat(hang), hang, &pads(known, &step.pads));
        if let Some((candidate, source, fit)) = step.rival {
            page.hanging(&" ".repeat(hang), hang, &self.rival(step, candidate, source, fit.value));
        }
        let is_shown = |branch: &&Branch| step.reach * branch.probability.value >= SHOWN_FROM;
        for branch in step.branches.iter().filter(is_shown) {
            self.branch(page, branch, depth, &indent);
        }
        let rest: f64 = step.branches.iter().filter(|branch| !is_shown(branch)).map(|b| b.probability.value).sum();
        if step.reach * rest >= SHOWN_FROM {
            page.hanging(
                &format!("{indent}   else ({}): ", percent(rest)),
                hang + 3,
                "rarer reasons, each in the JSON document",
            );
        }
        for (rule, candidate, fit) in step.asides.iter().filter(|aside| aside.2.value >= HOPELESS_BELOW) {
            if let Some(edge) = self.catalogue.edges().get(*rule) {
                let target = self.candidates[*candidate].title();
                let words = format!("-> {target}, fits {} (shop: {})", percent(fit.value), edge.note);
                let lead = format!("{indent}   or if {}:", edge.reason.words());
                page.hanging(&format!("{lead} "), hang + 3, &words);
            }
        }
    }

    fn branch(&self, page: &mut Page, branch: &Branch, depth: usize, indent: &str) {
        let chance = percent(branch.probability.value);
        let lead = match branch.reasons.as_slice() {
            [one] => format!("{indent}   if {} ({chance}):", one.words()),
            _ => format!("{indent}   else ({chance}):"),
        };
        let who = match &branch.next {
            None => format!("stop here; {}", end(self.query, depth)),
            Some(next) => match next.source {
                Source::Computed => "computed".to_owned(),
                Source::Rule(rule) => {
                    format!("shop's rule: {}", self.catalogue.edges().get(rule).map_or("", |edge| &edge.note))
                }
            },
        };
        page.hanging(&format!("{lead} "), indent.len() + 6, &who);
        if let Some(next) = &branch.next {
            self.step(page, next, depth + 1);
        }
    }

    fn rival(&self, step: &JudgedStep, candidate: usize, source: Source, fit: f64) -> String {
        let title = self.candidates[candidate].title();
        let (own, other) = (percent(step.fit.value), percent(fit));
        match source {
            Source::Computed => format!("(computed alone: {title}, fits {other}; within the shop's margin of {own})"),
            Source::Rule(rule) => {
                let note = self.catalogue.edges().get(rule).map_or("", |edge| &edge.note);
                format!("(differs from the shop's rule: {title}, \"{note}\", fits {other} against {own})")
            }
        }
    }
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
    let changed = changed(&known.size.standard, &pads.start);
    let start = if changed.is_empty() {
        "standard pads".to_owned()
    } else {
        let mut words = changed.iter().map(|(zone, mm, word)| format!("{word} {} ({} mm)", zone.name(), self::mm(*mm)));
        format!("start with {}", words.join(", "))
    };
    let by_zone = pads.bring.iter().into_group_map_by(|(zone, _)| *zone);
    let mut bring = by_zone
        .iter()
        .sorted_by_key(|(zone, _)| **zone)
        .map(|(zone, all)| format!("{} {}", zone.name(), all.iter().map(|(_, mm)| self::mm(*mm)).join("/")));
    let bring = bring.join(", ");
    if bring.is_empty() { start } else { format!("{start}; bring {bring} mm") }
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
