//! The plan: what to try, and a link from each thing that may be heard to what comes then.

mod steps;

use super::Page;
use super::block::{cautions, figure, paragraph, section, table, warnings};
use super::head::head;
use crate::catalogue::Catalogue;
use crate::fit::at_best;
use crate::plan::{Plan, Query};
use crate::render::fit_words::named;
use crate::render::json::Warning;
use crate::render::plan_words::{NO_PLAN, PlanView, RANKED, advice};
use crate::render::svg::{Kind, Links, cross_section, plan_tree};
use crate::render::table::{Cell, Column, Table};
use crate::render::text::{known, percent};
use steps::{bring, steps};

/// The plan as a page.
#[must_use]
pub fn plan(catalogue: &Catalogue, query: &Query<'_>, plan: &Plan<'_>, odd: &[Warning], said: &[&str]) -> String {
    let view = PlanView { catalogue, query, plan };
    let known = known(catalogue, &query.customer);
    let measure = advice(&plan.advice).map_or_else(String::new, |words| {
        section("measure", "Worth measuring next", &[paragraph(&format!("{words}."))])
    });
    let main = [
        warnings(odd.iter().map(|warning| warning.message.as_str())),
        format!("<div class=\"beside\">\n{}{}{}</div>\n", whole(&view), tree(&view), bring(&view)),
        measure,
        ranking(&view),
        steps(&view),
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

fn tree(view: &PlanView<'_>) -> String {
    match view.plan.first {
        Some(_) => figure(&plan_tree(view, Links::Steps), ""),
        None => nearest(view).unwrap_or_default(),
    }
}

/// Where nothing is worth a try: the helmet that fits such heads most often, and what is wrong with it.
fn nearest(view: &PlanView<'_>) -> Option<String> {
    let known = view.candidate(view.plan.ranking.first()?.candidate);
    let (cut, pads) = at_best(known, &view.plan.head.moments(), &view.catalogue.shop.fit);
    let words = format!("The expected head in what comes nearest, with {}.", named(&known.size.standard, &pads));
    Some(figure(&cross_section(&cut, &known.title(), "nearest"), &words))
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
        let share = |share: f64| Cell { text: percent(share), share: Some(share) };
        vec![
            Cell::from(format!("{}. {}", at + 1, known.title())),
            Cell::from(known.model.kind.name().to_owned()),
            share(ranked.fit.value),
            share(ranked.pads.fit_at_once.value),
            Cell::from(format!("{:.0}", ranked.minutes)),
            Cell::from(known.model.price.to_string()),
        ]
    });
    let table =
        table("By the chance of a good fit, before anything is tried", &Table { columns, rows: rows.collect() });
    section("ranking", "Ranking", &[table, paragraph(&view.ranking_note())])
}
