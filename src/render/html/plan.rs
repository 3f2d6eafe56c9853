//! The plan: what to try, and a link from each thing that may be heard to what comes then.

mod steps;

use super::Page;
use super::block::{beside, cautions, figure, paragraph, section, table, warnings};
use super::cut::cut;
use super::head::head;
use crate::catalogue::Catalogue;
use crate::plan::{Plan, Query};
use crate::render::json::Warning;
use crate::render::plan_steps::{NumberedStep, numbered};
use crate::render::plan_words::{NO_PLAN, PlanView, RANKED, advice};
use crate::render::svg::{Kind, Links, plan_tree};
use crate::render::table::{Cell, Column, Table};
use crate::render::text::known;
use steps::{bring, cards};

/// The plan as a page.
#[must_use]
pub fn plan(catalogue: &Catalogue, query: &Query<'_>, plan: &Plan<'_>, odd: &[Warning], said: &[&str]) -> String {
    let view = PlanView { catalogue, query, plan };
    let steps = numbered(plan);
    let known = known(catalogue, &query.customer);
    let measure = advice(&plan.advice).map_or_else(String::new, |words| {
        section("measure", "Worth measuring next", &[paragraph(&format!("{words}."))])
    });
    let main = [
        warnings(odd.iter().map(|warning| warning.message.as_str())),
        beside(&[whole(&view), tree(&view, &steps), bring(&view, &steps)]),
        measure,
        ranking(&view),
        cards(&view, &steps),
        head(&plan.head),
    ];
    Page {
        title: "What to try, and what then",
        about: &format!("{}, for one head: {known}", catalogue.shop.name),
        pictures: &[Kind::Tree, Kind::Cut],
        style: steps::STYLE,
        main: main.concat(),
        footer: cautions(said),
    }
    .finish()
}

/// The plan on one look.
fn whole(view: &PlanView<'_>) -> String {
    if view.plan.first.is_none() {
        return section("plan", "The plan", &[paragraph(NO_PLAN)]);
    }
    let left_out = view.left_out().map_or_else(String::new, |words| paragraph(&words));
    section("plan", "The plan", &[paragraph(&view.expected()), left_out])
}

/// The tree; where nothing is worth a try, the helmet that fits such heads most often, and what is wrong with it.
fn tree(view: &PlanView<'_>, steps: &[NumberedStep<'_>]) -> String {
    if !steps.is_empty() {
        return figure(&plan_tree(view, steps, Links::Steps), "");
    }
    let Some(nearest) = view.plan.ranking.first() else { return String::new() };
    let (known, heads) = (view.candidate(nearest.candidate), view.plan.head.moments());
    let words = ["The expected head in what comes nearest", &known.title(), "nearest"];
    cut(known, &heads, &view.catalogue.shop.fit, words)
}

fn ranking(view: &PlanView<'_>) -> String {
    if view.plan.ranking.is_empty() {
        return section("ranking", "Ranking", &[paragraph("Nothing fits such a head at all often.")]);
    }
    let currency = view.catalogue.shop.currency.as_str();
    let columns = vec![
        Column::words("model and size"),
        Column::words("type"),
        Column::numbers("fits"),
        Column::numbers("at once"),
        Column::numbers("minutes"),
        Column::numbers(currency),
    ];
    let rows = view.plan.ranking.iter().take(RANKED).enumerate().map(|(at, ranked)| {
        let known = view.candidate(ranked.candidate);
        vec![
            Cell::from(format!("{}. {}", at + 1, known.title())),
            Cell::from(known.model.kind.name().to_owned()),
            Cell::percent(ranked.fit.value),
            Cell::percent(ranked.pads.fit_at_once.value),
            Cell::from(format!("{:.0}", ranked.minutes)),
            Cell::from(known.model.price.to_string()),
        ]
    });
    let table =
        table("By the chance of a good fit, before anything is tried", &Table { columns, rows: rows.collect() });
    section("ranking", "Ranking", &[table, paragraph(&view.ranking_note())])
}
