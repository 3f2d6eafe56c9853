//! How few models serve how many.

use super::super::Page;
use super::super::block::{cautions, figure, paragraph, section, table};
use super::{STYLE, about, answer};
use crate::catalogue::Catalogue;
use crate::range::{Customers, Fewer, FewerWanted, Worth};
use crate::render::range_words::figures::of_hundred;
use crate::render::range_words::keep::{ALL_STAY, KeepWords, by_worth};
use crate::render::svg::models_and_shares;
use crate::render::table::{Column, Table};

/// The best subsets as a page for a browser.
#[must_use]
pub fn range_keep(
    catalogue: &Catalogue,
    asked: &Customers<'_>,
    wanted: &FewerWanted,
    fewer: &Fewer<'_>,
    must_say: &[&str],
) -> String {
    let words = KeepWords { wanted, fewer };
    let picture = models_and_shares(wanted, fewer);
    let drawn = figure(&picture, "So many models, and what comes in with the last of them.");
    let main = [
        smallest(&words),
        section("curve", "How many models serve how many", &[drawn, curve(&words)]),
        left_out(&words),
        section("how", "How sure", &[paragraph(&words.of_curve())]),
    ];
    Page {
        title: "The smallest range that serves nearly everybody",
        about: &about(&catalogue.shop.name, asked),
        pictures: &[picture.kind()],
        style: STYLE,
        main: main.concat(),
        footer: cautions(must_say),
    }
    .finish()
}

fn smallest(words: &KeepWords<'_, '_>) -> String {
    let subset = words.smallest();
    let figures = [
        (
            words.count(),
            format!("serve {} of 100 whom all models serve {}", of_hundred(subset.of_served), words.pads()),
        ),
        (of_hundred(subset.on_offer), "of all 100 customers, with the pads on offer".to_owned()),
        (of_hundred(subset.standard), "of all 100 with the standard pads".to_owned()),
    ];
    let said = [words.as_they_come(), words.always()].into_iter().flatten();
    let mut parts = vec![answer(&figures), paragraph(&words.serves())];
    parts.extend(said.map(|words| paragraph(&words)));
    parts.push(worth(words, "What stays", ["Stays", "nobody else here serves, of 100 customers"], &words.fewer.stay));
    section("smallest", "The smallest range", &parts)
}

fn curve(words: &KeepWords<'_, '_>) -> String {
    let columns = vec![
        Column::words("Models"),
        Column::words("comes in"),
        Column::numbers("with the pads on offer"),
        Column::numbers("standard pads"),
        Column::numbers("of those served"),
    ];
    let rows = words.told().into_iter().map(|at| {
        let subset = &words.fewer.curve[at];
        let [on_offer, standard, of_served] = [subset.on_offer, subset.standard, subset.of_served].map(of_hundred);
        let mark = if at == words.fewer.smallest { " - enough" } else { "" };
        let moved = format!("{}{mark}", words.moved(at));
        vec![subset.columns.len().to_string(), moved, on_offer, standard, of_served]
    });
    table("The best choice of so many models, of 100 customers", &Table::plain(columns, rows))
}

fn left_out(words: &KeepWords<'_, '_>) -> String {
    let go = &words.fewer.go;
    let known = match go.len() {
        0 => paragraph(ALL_STAY),
        _ => worth(words, "What goes", ["Goes", "would add, of 100 customers"], go),
    };
    section("left-out", "Left out", &[known])
}

fn worth(words: &KeepWords<'_, '_>, caption: &str, [name, figure]: [&str; 2], worth: &[Worth]) -> String {
    let columns = vec![Column::words(name), Column::numbers(figure)];
    let rows = by_worth(worth).map(|one| vec![words.name(one.column).to_owned(), of_hundred(one.share)]);
    table(caption, &Table::plain(columns, rows))
}
