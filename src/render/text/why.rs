//! An explained step for people.

mod heads;
mod instead;

use super::head::known;
use super::page::Page;
use crate::catalogue::Catalogue;
use crate::fit::{Candidate, Quote};
use crate::plan::{Answer, Found, Passed, Plan, Query, Source, StepWhy};
use crate::render::json::Warning;
use crate::render::plan_words::{pads, rounded_up};
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
    let view = View { catalogue, query, candidates: &plan.candidates };
    let mut page = Page::default();
    page.warnings(warnings.iter().map(|warning| warning.message.as_str()));
    match &answer.found {
        Found::Step(why) => view.step(&mut page, answer, why),
        Found::Aside(why) => view.aside(&mut page, answer, why),
        Found::Nowhere(_) | Found::NoPlan => view.top(&mut page, "no step", answer),
    }
    page.cautions(cautions);
    page.finish()
}

struct View<'a> {
    catalogue: &'a Catalogue,
    query: &'a Query<'a>,
    candidates: &'a [Candidate<'a>],
}

impl View<'_> {
    fn step(&self, page: &mut Page, answer: &Answer, why: &StepWhy) {
        let title = self.title(why.step.candidate);
        self.top(page, &format!("step {}: {title}", answer.way.len() + 1), answer);
        if !answer.way.is_empty() {
            page.wrapped("  reached   ", &format!("by {} of such customers", chance(why.reach)));
        }
        let says = match why.step.source {
            Source::Computed => "by the computation".to_owned(),
            Source::Rule(rule) => format!("by the shop's rule: {}", self.note(rule)),
        };
        self.figures(page, why, &says);
        to_come(page, why);
        instead(self, page, why);
        heads(page, why, "on arriving here");
    }

    fn aside(&self, page: &mut Page, answer: &Answer, why: &StepWhy) {
        self.top(page, &format!("beside the plan: {}", self.title(why.step.candidate)), answer);
        let reached =
            format!("{} of such customers get so far; what no measure tells has no probability", chance(why.reach));
        page.wrapped("  reached   ", &reached);
        let note = if let Source::Rule(rule) = why.step.source { self.note(rule) } else { "" };
        self.figures(page, why, &format!("by the shop's rule: {note}; in the size that fits such heads most often"));
        let words = "No figure compares it with another helmet: what speaks for it is the shop's experience, which no \
                     measure shows. The figures take the heads that the helmet before fits.";
        page.wrapped("  compared  ", words);
        heads(page, why, "that one fits");
    }

    /// The heading, whom it is for, and the way there.
    fn top(&self, page: &mut Page, title: &str, answer: &Answer) {
        page.heading(&format!("WHY {title}"));
        page.wrapped("  customer  ", &known(self.catalogue, &self.query.customer));
        match &answer.found {
            Found::NoPlan => page.line("  way       there is no plan"),
            _ if answer.way.is_empty() => page.line("  way       the plan begins here"),
            _ => {}
        }
        for (at, passed) in answer.way.iter().enumerate() {
            let lead = if at == 0 { "  way       " } else { "            " };
            page.hanging(&format!("{lead}{}. ", at + 1), 15, &self.passed(passed));
        }
    }

    fn passed(&self, passed: &Passed) -> String {
        let (title, words) = (self.title(passed.candidate), passed.reason.words());
        let chance = chance(passed.probability);
        match passed.branch.len() {
            0 => format!("{title} fits ({chance}), but {words}"),
            1 => format!("{title} fails: {words} ({chance})"),
            _ => format!("{title} fails: {words}, in the plan's \"else\" ({chance})"),
        }
    }

    fn figures(&self, page: &mut Page, why: &StepWhy, says: &str) {
        page.wrapped("  fits      ", &format!("{}, with the pads on offer", chance(why.step.fit)));
        page.wrapped("  takes     ", &format!("{} minutes", quoted(why.minutes)));
        page.wrapped("  pads      ", &pads(&self.candidates[why.step.candidate], &why.step.pads));
        page.wrapped("  chosen    ", says);
    }

    fn title(&self, candidate: usize) -> String {
        self.candidates[candidate].title()
    }

    fn note(&self, rule: usize) -> &str {
        self.catalogue.edges().get(rule).map_or("", |edge| &edge.note)
    }
}

/// What the plan takes from here on, and what listening is worth.
fn to_come(page: &mut Page, why: &StepWhy) {
    let rest = &why.rest;
    let words = format!(
        "{} minutes and {:.2}±{:.2} helmets to the end of the plan, this try included; {} leave without a helmet",
        quoted(rest.minutes),
        rest.tries.value,
        rounded_up(rest.tries.error, 100.0),
        chance(rest.no_fit)
    );
    page.wrapped("  to come   ", &words);
    let leads_on = why.step.branches.iter().any(|branch| branch.next.is_some());
    let words = if leads_on {
        format!(
            "why it fails saves {} of the {} minutes that are to come after a failure, going without counted",
            quoted(why.hearing),
            quoted(why.unheard)
        )
    } else {
        "saves nothing: whatever is reported, the plan ends here".to_owned()
    };
    page.wrapped("  hearing   ", &words);
}

/// `a, b and c`.
fn listed(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// A probability with its error, as exact as the error allows.
fn chance(quote: Quote) -> String {
    let (value, error) = (quote.value * 100.0, quote.error * 100.0);
    if error > 1.0 {
        format!("{value:.0}±{:.0} %", error.ceil())
    } else {
        format!("{value:.1}±{:.1} %", rounded_up(error, 10.0))
    }
}

/// Minutes with their error.
fn quoted(minutes: Quote) -> String {
    format!("{:.1}±{:.1}", tenths(minutes.value), rounded_up(minutes.error, 10.0))
}

/// The same with a sign before it.
fn signed(minutes: Quote) -> String {
    format!("{:+.1}±{:.1}", tenths(minutes.value), rounded_up(minutes.error, 10.0))
}

/// Without the sign of a nothing.
fn tenths(value: f64) -> f64 {
    (value * 10.0).round() / 10.0 + 0.0
}
