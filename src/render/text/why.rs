//! An explained step for people.

mod heads;
mod instead;

use super::head::known;
use super::page::Page;
use crate::catalogue::Catalogue;
use crate::plan::{Answer, Found, Plan, Query, StepWhy};
use crate::render::json::Warning;
use crate::render::plan_words::pads;
use crate::render::why_words::{BESIDE, WhyView, fits, hearing, reached, reached_beside, takes, to_come};
use heads::heads;
use instead::instead;

/// The explained step as a page.
#[must_use]
pub fn why(
    catalogue: &Catalogue,
    query: &Query<'_>,
    (plan, answer): (&Plan<'_>, &Answer),
    warnings: &[Warning],
    cautions: &[&str],
) -> String {
    let view = WhyView { catalogue, candidates: &plan.candidates };
    let customer = known(catalogue, &query.customer);
    let mut page = Page::default();
    page.warnings(warnings.iter().map(|warning| warning.message.as_str()));
    match &answer.found {
        Found::Step(why) => {
            let title = format!("step {}: {}", answer.way.len() + 1, view.title(why.step.candidate));
            top(&mut page, &view, (&title, &customer), answer);
            step(&mut page, &view, answer, why);
        }
        Found::Aside(why) => {
            let title = format!("beside the plan: {}", view.title(why.step.candidate));
            top(&mut page, &view, (&title, &customer), answer);
            aside(&mut page, &view, why);
        }
        Found::Nowhere(_) | Found::NoPlan => top(&mut page, &view, ("no step", &customer), answer),
    }
    page.cautions(cautions);
    page.finish()
}

/// The heading, whom it is for, and the way there.
fn top(page: &mut Page, view: &WhyView<'_>, (title, customer): (&str, &str), answer: &Answer) {
    page.heading(&format!("WHY {title}"));
    page.wrapped("  customer  ", customer);
    match &answer.found {
        Found::NoPlan => page.line("  way       there is no plan"),
        _ if answer.way.is_empty() => page.line("  way       the plan begins here"),
        _ => {}
    }
    for (at, passed) in answer.way.iter().enumerate() {
        let lead = if at == 0 { "  way       " } else { "            " };
        page.hanging(&format!("{lead}{}. ", at + 1), 15, &view.passed(passed));
    }
}

fn step(page: &mut Page, view: &WhyView<'_>, answer: &Answer, why: &StepWhy) {
    if !answer.way.is_empty() {
        page.wrapped("  reached   ", &reached(why));
    }
    figures(page, view, why, &view.says(why));
    page.wrapped("  to come   ", &to_come(why));
    page.wrapped("  hearing   ", &hearing(why));
    instead(view, page, why);
    heads(page, why, "on arriving here");
}

fn aside(page: &mut Page, view: &WhyView<'_>, why: &StepWhy) {
    page.wrapped("  reached   ", &reached_beside(why));
    figures(page, view, why, &view.says_beside(why));
    page.wrapped("  compared  ", BESIDE);
    heads(page, why, "that one fits");
}

fn figures(page: &mut Page, view: &WhyView<'_>, why: &StepWhy, says: &str) {
    page.wrapped("  fits      ", &fits(why));
    page.wrapped("  takes     ", &takes(why));
    page.wrapped("  pads      ", &pads(&view.candidates[why.step.candidate], &why.step.pads));
    page.wrapped("  chosen    ", says);
}
