//! An explained step: what speaks for it, what else there is, and what a failure tells.

use super::Page;
use super::block::{beside, cautions, facts, list, paragraph, section, table, warnings};
use super::cut::{WHO_GETS_HERE, cut};
use crate::catalogue::Catalogue;
use crate::fit::Quote;
use crate::plan::{Answer, Found, Likely, Plan, Query, StepWhy};
use crate::render::json::Warning;
use crate::render::plan_words::pads;
use crate::render::svg::Kind;
use crate::render::table::{Cell, Column, Table};
use crate::render::text::{known, percent};
use crate::render::why_words::{
    BESIDE, COMPARED, NEWS, NOTHING_ELSE, WhyView, compared, fits, hearing, label, news, outcome, quoted, reached,
    reached_beside, shown_outcomes, signed, takes, to_come,
};
use itertools::Itertools;

/// The explained step as a page.
#[must_use]
pub fn why(
    catalogue: &Catalogue,
    query: &Query<'_>,
    (plan, answer): (&Plan<'_>, &Answer),
    odd: &[Warning],
    said: &[&str],
) -> String {
    let view = WhyView { catalogue, candidates: &plan.candidates };
    let (title, told) = match &answer.found {
        Found::Step(why) => {
            (format!("Why step {}: {}", answer.way.len() + 1, view.title(why.step.candidate)), step(&view, answer, why))
        }
        Found::Aside(why) => {
            (format!("Why beside the plan: {}", view.title(why.step.candidate)), aside(&view, answer, why))
        }
        Found::Nowhere(_) | Found::NoPlan => ("No step to explain".to_owned(), way(&view, answer)),
    };
    let odd = warnings(odd.iter().map(|warning| warning.message.as_str()));
    Page {
        title: &title,
        about: &format!("for one head: {}", known(catalogue, &query.customer)),
        pictures: &[Kind::Cut],
        main: odd + &told,
        footer: cautions(said),
        ..Page::default()
    }
    .finish()
}

/// How one gets here.
fn way(view: &WhyView<'_>, answer: &Answer) -> String {
    let passed = answer.way.iter().map(|passed| view.passed(passed)).collect_vec();
    let words = match &answer.found {
        Found::NoPlan => paragraph("There is no plan."),
        _ if passed.is_empty() => paragraph("The plan begins here."),
        _ => list(&passed),
    };
    section("way", "The way here", &[words])
}

fn step(view: &WhyView<'_>, answer: &Answer, why: &StepWhy) -> String {
    let mut told = Vec::new();
    if !answer.way.is_empty() {
        told.push(("Reached", reached(why)));
    }
    told.extend(figures(view, why));
    told.extend([("Chosen", view.says(why)), ("To come", to_come(why)), ("Hearing", hearing(why))]);
    let step = section("step", "The step", &[facts(&told)]);
    let top = beside(&[way(view, answer), picture(view, why), step]);
    [top, instead(view, why), heads(why, "on arriving here")].concat()
}

fn aside(view: &WhyView<'_>, answer: &Answer, why: &StepWhy) -> String {
    let mut told = vec![("Reached", reached_beside(why))];
    told.extend(figures(view, why));
    told.extend([("Chosen", view.says_beside(why)), ("Compared", BESIDE.to_owned())]);
    let step = section("step", "The helmet", &[facts(&told)]);
    let top = beside(&[way(view, answer), picture(view, why), step]);
    top + &heads(why, "that one fits")
}

fn figures(view: &WhyView<'_>, why: &StepWhy) -> [(&'static str, String); 3] {
    let pads = pads(&view.candidates[why.step.candidate], &why.step.pads);
    [("Fits", fits(why)), ("Takes", takes(why)), ("Pads", pads)]
}

fn picture(view: &WhyView<'_>, why: &StepWhy) -> String {
    let known = &view.candidates[why.step.candidate];
    cut(known, &why.step.head, &view.catalogue.shop.fit, [WHO_GETS_HERE, &known.title(), "why"])
}

/// The choice beside everything else that is named.
fn instead(view: &WhyView<'_>, why: &StepWhy) -> String {
    let columns = vec![
        Column::words("model and size"),
        Column::numbers("fits"),
        Column::numbers("the try"),
        Column::numbers("to the end"),
        Column::numbers("than the choice"),
    ];
    let row = |name: String, fit: Quote, minutes: Quote, cost: Quote, more: String| {
        let minutes = format!("{:.1}", minutes.value);
        vec![
            Cell::from(name),
            Cell::percent(fit.value),
            Cell::from(minutes),
            Cell::from(quoted(cost)),
            Cell::from(more),
        ]
    };
    let choice = view.title(why.step.candidate);
    let mut rows = vec![row(choice, why.step.fit, why.minutes, why.rest.cost, String::new())];
    rows.extend(('a'..).zip(&why.instead).map(|(letter, other)| {
        let name = format!("{letter}. {}", view.title(other.candidate));
        row(name, other.fit, other.minutes, other.rest.cost, signed(other.more))
    }));
    let leaving = format!("{:.1}", view.catalogue.shop.minutes.go_without);
    let cells = ["leaving without".to_owned(), String::new(), String::new(), leaving, signed(why.leaving)];
    rows.push(cells.map(Cell::from).into());
    let words = ('a'..).zip(&why.instead).map(|(letter, other)| format!("{letter}. {}", compared(view, why, other)));
    let words = words.collect_vec();
    let words = if words.is_empty() { paragraph(NOTHING_ELSE) } else { list(&words) };
    let parts =
        [table("The choice beside what else could be tried", &Table { columns, rows }), paragraph(COMPARED), words];
    section("instead", "Instead of this step", &parts)
}

/// The heads as measured, of whoever gets here, and after each outcome.
fn heads(why: &StepWhy, here: &str) -> String {
    let columns = vec![
        Column::words("heads"),
        Column::numbers("chance"),
        Column::numbers("circumference, mm"),
        Column::numbers("shape index"),
        Column::numbers("long"),
        Column::numbers("interm."),
        Column::numbers("round"),
    ];
    let row = |name: &str, chance: String, likely: &Likely| {
        let spread = |k: usize| format!("{:.1} ±{:.1}", likely.mean[k].value, likely.sd[k].value);
        let mut cells = [name.to_owned(), chance, spread(0), spread(4)].map(Cell::from).into_iter().collect_vec();
        cells.extend(likely.words.map(|share| Cell::percent(share.value)));
        cells
    };
    let mut rows = vec![row("as measured", String::new(), &why.measured)];
    let mut told = Vec::new();
    if let Some(likely) = why.here.as_ref().filter(|_| why.reach.value < 1.0 - 1e-9) {
        rows.push(row(here, String::new(), likely));
        told.push(format!("{here}: {}", news(likely)));
    }
    let (shown, rest) = shown_outcomes(why);
    for outcome_told in shown {
        let (Some(likely), Some(words)) = (&outcome_told.likely, outcome(outcome_told)) else { continue };
        rows.push(row(label(outcome_told), percent(outcome_told.probability.value), likely));
        let lead = if outcome_told.reasons.is_empty() { "If it fits: " } else { "" };
        told.push(format!("{lead}{words}"));
    }
    told.extend(rest.map(|rest| format!("Rarer reports, {} in all: each in the JSON document", percent(rest))));
    let caption = "Heads that remain likely after what may be heard";
    section("heads", "What a failure tells", &[table(caption, &Table { columns, rows }), list(&told), paragraph(NEWS)])
}
