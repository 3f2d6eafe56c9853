//! The plan for people.

use super::head::head;
use super::page::{Page, bold, fixed, percent};
use crate::catalogue::Catalogue;
use crate::plan::{Branch, JudgedStep, Plan, Query};
use crate::render::json::Warning;
use crate::render::plan_words::{NO_PLAN, PlanView, RANKED, RARER, advice, if_heard, pads, shown_branches};

/// The plan as a page.
#[must_use]
pub fn plan(
    catalogue: &Catalogue,
    query: &Query<'_>,
    plan: &Plan<'_>,
    warnings: &[Warning],
    cautions: &[&str],
) -> String {
    let view = PlanView { catalogue, query, plan };
    let mut page = Page::default();
    page.warnings(warnings.iter().map(|warning| warning.message.as_str()));
    head(&mut page, catalogue, &query.customer, &plan.head);
    if let Some(words) = advice(&plan.advice) {
        page.wrapped("  measure   ", &words);
    }
    ranking(&mut page, &view);
    steps(&mut page, &view);
    page.cautions(cautions);
    page.finish()
}

fn ranking(page: &mut Page, view: &PlanView<'_>) {
    page.heading("RANKING by the chance of a good fit, before anything is tried");
    if view.plan.ranking.is_empty() {
        page.line("  nothing fits such a head at all often");
        return;
    }
    page.line("     model and size               type         fits  at once  minutes     price");
    for (at, ranked) in view.plan.ranking.iter().take(RANKED).enumerate() {
        let known = view.candidate(ranked.candidate);
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
    page.wrapped("     ", &view.ranking_note());
}

fn steps(page: &mut Page, view: &PlanView<'_>) {
    page.heading("PLAN");
    let Some(first) = &view.plan.first else { return page.wrapped("  ", NO_PLAN) };
    page.wrapped("  ", &view.expected());
    if let Some(left_out) = view.left_out() {
        page.wrapped("  ", &left_out);
    }
    page.line("");
    step(page, view, first, 0);
}

/// A step and what follows it, `depth` levels in.
fn step(page: &mut Page, view: &PlanView<'_>, step: &JudgedStep, depth: usize) {
    let indent = " ".repeat(2 + 3 * depth);
    let known = view.candidate(step.candidate);
    let first = format!("{indent}{}. {} ", depth + 1, bold(&known.title()));
    let hang = indent.len() + 3;
    page.hanging(&first, hang, &format!("- fits {}, {:.0} minutes", percent(step.fit.value), step.minutes));
    page.hanging(&" ".repeat(hang), hang, &pads(known, &step.pads));
    if let Some(rival) = view.rival(step) {
        page.hanging(&" ".repeat(hang), hang, &format!("({rival})"));
    }
    let (branches, rest) = shown_branches(step);
    branches.into_iter().for_each(|next| branch(page, view, next, depth));
    if let Some(rest) = rest {
        page.hanging(&format!("{indent}   else ({}): ", percent(rest)), hang + 3, RARER);
    }
    for (edge, target, fit) in view.asides(step) {
        let words = format!("-> {}, fits {} (shop: {})", target.title(), percent(fit), edge.note);
        page.hanging(&format!("{indent}   or if {}: ", edge.reason.words()), hang + 3, &words);
    }
}

fn branch(page: &mut Page, view: &PlanView<'_>, branch: &Branch, depth: usize) {
    let indent = " ".repeat(2 + 3 * depth);
    let chance = percent(branch.probability.value);
    let lead = format!("{indent}   {} ({chance}): ", if_heard(branch, "else"));
    page.hanging(&lead, indent.len() + 6, &view.says(branch, depth));
    if let Some(next) = &branch.next {
        step(page, view, next, depth + 1);
    }
}
