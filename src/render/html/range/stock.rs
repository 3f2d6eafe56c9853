//! Pads for the drawer.

use super::super::Page;
use super::super::block::{cautions, facts, figure, list, paragraph, section, table, warnings};
use super::{STYLE, answer};
use crate::range::stock::StockedPad;
use crate::render::StockReport;
use crate::render::range_words::stock::{
    self, CUSTOMERS, NO_PADS, PADS, Row, WHEN_WANTED, ZONES, asked, both, customers, money, named, of_shell, order,
    pads_of, price, probably, proof, short, title, to_have, used, won, worth, zones,
};
use crate::render::svg::{Kind, kits_in_order};
use crate::render::table::{Column, Table};
use crate::render::text::mm;
use itertools::Itertools;

/// The drawer as a page for a browser.
#[must_use]
pub fn range_stock(report: &StockReport<'_>) -> String {
    let first = warnings(report.warnings.iter().map(|warning| warning.message.as_str()));
    let parts = match report.only {
        Some(_) => vec![by_shell(report), budget(report)],
        None => vec![
            drawer(report),
            budget(report),
            in_order(report),
            contents(report),
            both_ways(report, "Sold singly and in packs"),
            of_customers(report),
            of_zones(report),
        ],
    };
    let how = section("how", "What was asked, and how sure", &[facts(&asked(report))]);
    let title = format!("Pads for the drawer: {}", title(report));
    Page {
        title: &title,
        about: &report.catalogue.shop.name,
        pictures: &[Kind::Bars],
        style: STYLE,
        main: first + &parts.concat() + &how,
        footer: cautions(report.cautions),
    }
    .finish()
}

fn drawer(report: &StockReport<'_>) -> String {
    let drawer = report.drawer;
    let before = &drawer.order.before;
    let last = drawer.order.steps.last().map_or(before, |step| &step.served);
    let figures = [
        (drawer.stock().to_string(), format!("pads in {} kits", drawer.kits.len())),
        (money(report, drawer.bill()), "for all of them, bought the cheapest way".to_owned()),
        (
            format!("{:.1}", 100.0 * last.quote.value),
            format!("of 100 customers served at once, instead of {:.1} with standard pads", 100.0 * before.quote.value),
        ),
    ];
    let said = std::iter::once(("to have", to_have(report))).chain(price(report)).collect_vec();
    section("drawer", "The drawer", &[answer(&figures), facts(&said)])
}

fn in_order(report: &StockReport<'_>) -> String {
    let order = &report.drawer.order;
    let columns = vec![
        Column::words("Kit"),
        Column::numbers("pads"),
        Column::numbers("price"),
        Column::numbers("spent"),
        Column::numbers("won"),
        Column::numbers("served"),
    ];
    let served = |value: f64| format!("{:.1}", value * 100.0);
    let none = [String::new(), String::new(), String::new(), String::new(), served(order.before.quote.value)];
    let none = std::iter::once("with the standard pads alone".to_owned()).chain(none).collect();
    let rows = order.steps.iter().zip(1..).map(|(step, number)| {
        let kit = &report.drawer.kits[step.kit];
        vec![
            format!("{number}. {}", named(report, kit)),
            pads_of(report, kit).to_string(),
            short(kit.purchase.bill),
            short(step.spent),
            won(step),
            served(step.served.quote.value),
        ]
    });
    let (words, idle) = stock::in_order(report);
    let idle = idle.map_or_else(String::new, |idle| {
        paragraph(&format!("These win nobody more, but leave a wider choice: {idle}."))
    });
    let picture = match order.steps.len() {
        0 => String::new(),
        _ => figure(&kits_in_order(report), "Prices and shares stand in the table."),
    };
    let known = table("Kits in the order to buy them", &Table::plain(columns, std::iter::once(none).chain(rows)));
    section("kits", "Kits, in the order to buy them", &[picture, known, paragraph(&words), idle])
}

fn budget(report: &StockReport<'_>) -> String {
    report.drawer.order.budget.as_ref().map_or_else(String::new, |bought| {
        section("budget", &format!("For {}", money(report, bought.budget)), &[facts(&proof(report, bought))])
    })
}

fn contents(report: &StockReport<'_>) -> String {
    if report.drawer.kits.is_empty() {
        return String::new();
    }
    let columns = vec![Column::words("Kit"), Column::words("pads, mm; one of each where nothing else is said")];
    let rows = stock::stocked(report).map(|(number, kit)| {
        let number = number.map_or_else(String::new, |number: usize| format!("{number}. "));
        vec![format!("{number}{}", named(report, kit)), stock::contents(report, kit)]
    });
    let known = table("What lies in the kits", &Table::plain(columns, rows));
    section("contents", "What lies in them", &[known, paragraph(WHEN_WANTED)])
}

fn both_ways(report: &StockReport<'_>, heading: &str) -> String {
    let kits = report.drawer.kits.iter().filter(|kit| report.shows(kit.model));
    let ways = kits.flat_map(|kit| kit.both_ways.iter().map(move |way| (kit, way)));
    let lines = ways.map(|(kit, way)| format!("{}: {}", named(report, kit), both(&report.drawer.pads[way.pad], way)));
    let lines = lines.collect_vec();
    if lines.is_empty() { String::new() } else { section("both-ways", heading, &[list(&lines)]) }
}

fn of_customers(report: &StockReport<'_>) -> String {
    let known = rows("Of 100 customers, by the shop's rules", "Customers", &customers(report));
    section("customers", "What customers take", &[known, paragraph(CUSTOMERS)])
}

fn of_zones(report: &StockReport<'_>) -> String {
    let zones = zones(report);
    if zones.is_empty() {
        return String::new();
    }
    let known = rows("Of 100 customers, without the other pads of a zone", "Customers", &zones);
    section("zones", "Without a zone's pads", &[known, paragraph(ZONES)])
}

fn rows(caption: &str, name: &str, rows: &[Row]) -> String {
    let columns = vec![Column::words(name), Column::numbers("of 100"), Column::numbers("where profiles are off")];
    let rows =
        rows.iter().map(|row| vec![row.name.clone(), format!("{}{}", row.value, row.error), row.between.clone()]);
    table(caption, &Table::plain(columns, rows))
}

fn by_shell(report: &StockReport<'_>) -> String {
    let pads = report.drawer.pads.iter().filter(|pad| report.shows(pad.place.model)).collect_vec();
    let of_shells = pads.chunk_by(|a, b| a.place.shell == b.place.shell).map(|pads| {
        let shell = of_shell(report, &pads[0].place);
        let order = facts(&[("order", order(report, &pads[0].place))]);
        section(
            &format!("shell-{}", pads[0].place.shell),
            &format!("Shell {shell}"),
            &[shell_table(&shell, pads), order],
        )
    });
    let mut parts = of_shells.collect_vec();
    if parts.is_empty() {
        parts.push(section("pads", "Pads", &[paragraph(&format!("{NO_PADS}."))]));
    } else {
        parts.push(section("columns", "What the columns are", &[paragraph(PADS)]));
    }
    parts.push(both_ways(report, "Sold singly and in packs"));
    parts.concat()
}

fn shell_table(shell: &str, pads: &[&StockedPad<'_>]) -> String {
    let columns = vec![
        Column::words("Pad, mm"),
        Column::words("sizes"),
        Column::numbers("used by 100"),
        Column::numbers("wanted"),
        Column::numbers("stock"),
        Column::numbers("enough"),
        Column::numbers("price"),
    ];
    let rows = pads.iter().map(|pad| {
        let article = &pad.place.article;
        vec![
            format!("{} {}", article.kind.0.name(), mm(article.kind.1)),
            article.sizes.iter().join(", "),
            used(pad),
            format!("{:.3}", pad.wanted),
            pad.stock.to_string(),
            probably(pad.enough),
            worth(pad).trim_end().to_owned(),
        ]
    });
    table(&format!("Pads of shell {shell}"), &Table::plain(columns, rows))
}
