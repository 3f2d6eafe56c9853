//! The new model that would win most customers.

use super::super::Page;
use super::super::block::{cautions, facts, figure, paragraph, section, table};
use super::{STYLE, answer};
use crate::catalogue::Catalogue;
use crate::head::Population;
use crate::range::{Design, Designs};
use crate::render::range_words::design::{DesignWords, named, sizes};
use crate::render::range_words::figures::{share, spread};
use crate::render::svg::{Kind, designs_by_shape};
use crate::render::table::{Column, Table};
use crate::unit::plain;

/// The answer as a page for a browser.
#[must_use]
pub fn range_design(
    catalogue: &Catalogue,
    population: &Population,
    models: usize,
    designs: &Designs<'_>,
    must_say: &[&str],
) -> String {
    let words = DesignWords { catalogue, designs };
    let answered = match &designs.best {
        Some(best) if best.pays => found(&words, best),
        _ => section("best", "No new model is worth having", &[paragraph(&words.nothing())]),
    };
    let main = [
        answered,
        section("customers", "Customers without a helmet", &[paragraph(&words.who(population, models))]),
        section("how", "How sure", &[paragraph(&words.how())]),
    ];
    Page {
        title: "The new model that would win most customers",
        about: &format!("{}. Population: {}.", catalogue.shop.name, population.name),
        pictures: &[Kind::Bars],
        style: STYLE,
        main: main.concat(),
        footer: cautions(must_say),
    }
    .finish()
}

fn found(words: &DesignWords<'_, '_>, best: &Design) -> String {
    let blueprint = &best.blueprint;
    let figures = [
        (share(best.gain), "of all customers: what it would win".to_owned()),
        (share(words.designs.gap), "of all customers have nothing now".to_owned()),
        (spread(best.spread), "is won if the profiles of the others are off".to_owned()),
    ];
    let columns = vec![Column::words("Part"), Column::numbers("lost without it")];
    let parts = best.parts.iter().map(|(part, quote)| vec![named(part), share(*quote)]);
    let known = table("What each part of it wins, of all customers", &Table::plain(columns, parts));
    let picture = figure(
        &designs_by_shape(words.catalogue, words.designs),
        "By the shape index, 100 × breadth / length, with the sizes of the model.",
    );
    let next = format!("<h3>Another shape</h3>\n{}", paragraph(&words.next()));
    let reshaped = words
        .reshaped(best)
        .map(|words| section("exists", "A model that exists, with this shape", &[paragraph(&words)]));
    [
        section(
            "best",
            &format!("Index {}, sizes {}", plain(blueprint.shape_index), sizes(blueprint, ", ")),
            &[answer(&figures), facts(&words.facts(best))],
        ),
        section("parts", "What each part of it wins", &[known, paragraph(&words.least())]),
        section("shapes", "The best model of each shape", &[picture, shapes(words), next]),
        reshaped.unwrap_or_default(),
    ]
    .concat()
}

fn shapes(words: &DesignWords<'_, '_>) -> String {
    let columns = vec![Column::words("Index"), Column::words("sizes"), Column::numbers("wins")];
    let rows = words
        .by_index()
        .map(|(blueprint, gain)| vec![plain(blueprint.shape_index), sizes(blueprint, " "), share(*gain)]);
    table("The best model of each whole point of the index", &Table::plain(columns, rows))
}
