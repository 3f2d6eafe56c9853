//! Who is served, by what, who goes without, and what pads would win.

use super::super::Page;
use super::super::block::{cautions, figure, paragraph, section, table};
use super::{STYLE, about, answer};
use crate::catalogue::Catalogue;
use crate::range::{Alone, Customers, Own, Served};
use crate::render::StockReport;
use crate::render::range_words::figures::{between, of_hundred, percent, spread, whole};
use crate::render::range_words::served::{
    LETTERS, MODELS, MOST_LETTERS, best_at, elsewhere, how, lost_there, nearest, of_gap,
};
use crate::render::range_words::stock::{in_order, named, short, to_have, won};
use crate::render::svg::range_map;
use crate::render::table::{Cell, Column, Table};
use itertools::Itertools;

/// A range, with what pads for it would win.
#[derive(Debug, Clone, Copy)]
pub struct RangeReport<'r> {
    /// The profiles.
    pub catalogue: &'r Catalogue,
    /// Whose heads were counted.
    pub customers: &'r Customers<'r>,
    /// Who is served.
    pub served: &'r Served<'r>,
    /// The drawer by the shop's own rules; `None` where these know no best one.
    pub stock: Option<&'r StockReport<'r>>,
    /// What must be said.
    pub cautions: &'r [&'r str],
}

/// The range as a page for a browser.
#[must_use]
pub fn range(report: &RangeReport<'_>) -> String {
    let RangeReport { catalogue, customers, served, stock, .. } = report;
    let map = range_map(customers, served);
    let main = [
        totals(served),
        section("map", "The map", &[figure(&map, MAP)]),
        gaps(served),
        worth(served),
        section("stock", "Pads to stock", &stock.map_or_else(|| vec![paragraph(NO_STOCK)], kits)),
        models(served),
        overlap(served),
        parts(catalogue, served),
        section("how", "How sure", &[paragraph(&how(served))]),
    ];
    Page {
        title: "Whom the range serves",
        about: &about(&catalogue.shop.name, customers),
        pictures: &[map.kind()],
        style: STYLE,
        main: main.concat(),
        footer: cautions(report.cautions),
    }
    .finish()
}

/// How to read the map.
const MAP: &str = "From the top small heads to large ones; from the left long ovals to round ones. The figures hold with every pad on \
                   offer. Outlines with a number are the largest gaps of the list below; those of some faces only have none.";

const NO_STOCK: &str = "With a margin, and nothing lost by a pad that is left over, no stock is too large: say in shop.yaml what \
                        such a pad loses (stocking.left_over_loss).";

/// Kits that the page tells.
const KITS: usize = 5;

fn totals(served: &Served<'_>) -> String {
    let [standard, on_offer] = [served.standard, served.on_offer];
    let figures = [
        (of_hundred(on_offer.quote), "of 100 customers are served with every pad on offer".to_owned()),
        (of_hundred(standard.quote), "of 100 with the standard pads, without a swap".to_owned()),
        (percent(on_offer.quote.value - standard.quote.value), "of 100 are won by pads".to_owned()),
        (percent(1.0 - on_offer.quote.value), "of 100 fit nothing".to_owned()),
    ];
    let columns = vec![
        Column::words("Served by at least one helmet"),
        Column::numbers("of 100 customers"),
        Column::numbers("if profiles are off"),
    ];
    let rows = [("with standard pads", standard), ("with every pad on offer", on_offer)];
    let rows = rows.map(|(name, figure)| vec![name.to_owned(), of_hundred(figure.quote), between(figure.spread)]);
    let known = table("Who is served, and where the figure lies if profiles are off", &Table::plain(columns, rows));
    section("served", "Who is served", &[answer(&figures), known])
}

fn gaps(served: &Served<'_>) -> String {
    let columns = vec![
        Column::words("Whose heads"),
        Column::numbers("lost, of 100 customers"),
        Column::numbers("of 100 such heads"),
        Column::words("Nearest helmet"),
    ];
    let rows = served.gaps.gaps.iter().zip(1..).map(|(gap, number)| {
        vec![
            Cell::from(format!("{number}. {}", of_gap(gap, served))),
            Cell::from(of_hundred(gap.lost)),
            Cell::from(lost_there(gap)),
            Cell::from(nearest(gap).unwrap_or_else(|| "none".to_owned())),
        ]
    });
    let rows = rows.collect_vec();
    let known = match rows.len() {
        0 => String::new(),
        _ => table("Where most customers fit nothing, most of them first", &Table { columns, rows }),
    };
    let words = "`lidladder range design --format html` looks for the model that would close most of them.";
    section("gaps", "The gaps", &[known, paragraph(&elsewhere(served)), paragraph(words)])
}

/// What would be lost without each model.
fn worth(served: &Served<'_>) -> String {
    let columns = vec![
        Column::words("Without"),
        Column::numbers("lost, of 100"),
        Column::numbers("if profiles are off"),
        Column::numbers("best fit for, of 100"),
    ];
    let sorted = served.models.iter().sorted_by(|a, b| b.only.quote.value.total_cmp(&a.only.quote.value));
    let (missed, idle): (Vec<_>, Vec<_>) = sorted.partition(|own| own.only.quote.value > 0.0);
    let rows = missed.iter().map(|own| {
        let spread = spread(own.only.spread);
        vec![
            own.models[0].name.clone(),
            of_hundred(own.only.quote),
            spread.trim_end_matches(" %").to_owned(),
            percent(own.best.value),
        ]
    });
    let known = match missed.len() {
        0 => String::new(),
        _ => table("Customers whom nothing else here serves, every pad on offer counted", &Table::plain(columns, rows)),
    };
    let idle = idle.iter().map(|own| own.models[0].name.as_str()).join(", ");
    let idle =
        if idle.is_empty() { idle } else { paragraph(&format!("Nobody is lost without any one of these: {idle}.")) };
    let words = "Two that go together may lose more than each alone: `lidladder range --drop MODELS --format html` shows that, \
                 and `lidladder range keep --format html` how few models serve nearly everybody.";
    section("worth", "What each model is worth", &[known, idle, paragraph(words)])
}

/// The first kits to buy.
fn kits(report: &StockReport<'_>) -> Vec<String> {
    let order = &report.drawer.order;
    let currency = &report.catalogue.shop.currency;
    let columns = vec![
        Column::words("Kit: the pads of one shell"),
        Column::numbers(format!("spent so far, {currency}")),
        Column::numbers("wins, of 100"),
        Column::numbers("then served at once"),
    ];
    let served = |value: f64| format!("{:.1}", value * 100.0);
    let none =
        ["none: the standard pads alone".to_owned(), "0".to_owned(), String::new(), served(order.before.quote.value)];
    let rows = order.steps.iter().zip(1..).take(KITS).map(|(step, number)| {
        let name = named(report, &report.drawer.kits[step.kit]);
        [format!("{number}. {name}"), short(step.spent), won(step), served(step.served.quote.value)]
    });
    let rows = std::iter::once(none).chain(rows).map(Vec::from);
    let known = table(
        "Kits in the order to buy them: at once from the drawer, or with standard pads",
        &Table::plain(columns, rows),
    );
    let words = "`lidladder range stock --format html` has every kit, what lies in it, and the assumptions behind it.";
    let (how_sure, _) = in_order(report);
    vec![paragraph(&to_have(report)), known, paragraph(&how_sure), paragraph(words)]
}

fn models(served: &Served<'_>) -> String {
    let columns = || {
        vec![
            Column::words("Model"),
            Column::numbers("standard pads"),
            Column::numbers("every pad"),
            Column::numbers("only this"),
            Column::numbers("best fit"),
            Column::numbers("best at, cm"),
            Column::numbers("best at, index"),
        ]
    };
    let letters = LETTERS.chars().map(|letter| format!("{letter} ")).chain(std::iter::repeat(String::new()));
    let rows = served.models.iter().zip(letters);
    let rows = rows.map(|(own, letter)| own_row(format!("{letter}{}", own.models[0].name), own)).collect();
    let all = table("Each model, of 100 customers", &Table { columns: columns(), rows });
    let families = served.families.iter().filter(|(_, _, own)| own.models.len() > 1);
    let rows =
        families.map(|(_, family, own)| own_row(format!("all {} {family}", own.models.len()), own)).collect_vec();
    let families = match rows.len() {
        0 => String::new(),
        _ => table("Families together, of 100 customers", &Table { columns: columns(), rows }),
    };
    section("models", "Models and families", &[all, families, paragraph(MODELS)])
}

fn own_row(name: String, own: &Own<'_>) -> Vec<Cell> {
    let [standard, any] =
        [own.standard, own.on_offer.quote].map(|quote| Cell::shaded(percent(quote.value), quote.value));
    let [only, best] = [own.only.quote, own.best].map(|quote| Cell::from(percent(quote.value)));
    let [cm, index] = best_at(own).unwrap_or_default().map(Cell::from);
    vec![Cell::from(name), standard, any, only, best, cm, index]
}

fn overlap(served: &Served<'_>) -> String {
    let count = served.models.len();
    if !(2..=MOST_LETTERS).contains(&count) {
        return String::new();
    }
    let letters = || LETTERS.chars().take(count);
    let columns = std::iter::once(Column::words("serves"));
    let columns = columns.chain(letters().map(|letter| Column::numbers(letter.to_string()))).collect();
    let rows = served.overlap.iter().enumerate().zip(letters()).map(|((one, row), letter)| {
        let name = Cell::from(format!("{letter} {}", served.models[one].models[0].name));
        let share = |(other, share): (usize, &f64)| {
            if one == other { Cell::from("·".to_owned()) } else { Cell::shaded(whole(*share), *share) }
        };
        std::iter::once(name).chain(row.iter().enumerate().map(share)).collect()
    });
    let known = Table { columns, rows: rows.collect() };
    let caption = "Of 100 customers whom the row serves, the column serves so many, too";
    section("overlap", "Overlap", &[table(caption, &known)])
}

fn parts(catalogue: &Catalogue, served: &Served<'_>) -> String {
    let columns = |what: &str| {
        vec![
            Column::words(what),
            Column::numbers("models"),
            Column::numbers("standard pads"),
            Column::numbers("every pad on offer"),
        ]
    };
    let kinds = served.by_kind.iter().map(|part| part_row(part.which.name().to_owned(), part)).collect();
    let price = |limit: crate::unit::Money| format!("up to {limit} {}", catalogue.shop.currency);
    let prices = served.by_price.iter().map(|part| part_row(price(part.which), part)).collect();
    let tables = [
        table("Of 100 customers who take this type alone", &Table { columns: columns("Type"), rows: kinds }),
        table("Of 100 customers who pay so much at most", &Table { columns: columns("Price"), rows: prices }),
    ];
    section("parts", "By type and price", &tables)
}

fn part_row<T>(name: String, part: &Alone<T>) -> Vec<Cell> {
    let [standard, on_offer] = [part.standard, part.on_offer].map(|quote| Cell::shaded(of_hundred(quote), quote.value));
    vec![Cell::from(name), Cell::from(part.models.to_string()), standard, on_offer]
}
