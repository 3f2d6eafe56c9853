//! What to order for a pad set.

use super::Page;
use super::block::{cautions, facts, paragraph, section, table};
use crate::catalogue::Catalogue;
use crate::render::pads_words::{
    NOTHING, customer_pays, from_drawer, goes_back, helmet, left_over, named, next_best, shop_pays, stays, wanted,
};
use crate::render::table::{Column, Table};
use crate::supply::{Line, Supplied, Way, Wish};
use itertools::Itertools;

/// The order as a page.
#[must_use]
pub fn pads(catalogue: &Catalogue, wish: &Wish<'_>, supplied: &Supplied<'_>, cautioned: &[&str]) -> String {
    let currency = catalogue.shop.currency.as_str();
    let best = &supplied.best;
    let beside = told([
        ("from the drawer", from_drawer(best, currency)),
        ("left over", left_over(best, currency)),
        ("next best", next_best(supplied, currency)),
    ]);
    let out = told([("goes back", goes_back(wish, supplied, currency)), ("stays", stays(wish, supplied))]);
    let out = if out.is_empty() { out } else { section("out", "What comes out", &[out]) };
    let payers =
        told([("customer", customer_pays(wish, supplied, currency)), ("shop", Some(shop_pays(supplied, currency)))]);
    let parts = [
        told([("wanted", Some(wanted(wish)))]),
        section("order", &format!("Order from {}", wish.model.maker), &[order(best, currency), beside]),
        out,
        section("payers", "Who pays", &[payers]),
    ];
    let title = format!("Pads for {}", helmet(wish));
    let footer = cautions(cautioned);
    let about = &catalogue.shop.name;
    Page { title: &title, about, style: STYLE, main: parts.concat(), footer, ..Page::default() }.finish()
}

/// What there is something to say of.
fn told<const N: usize>(lines: [(&'static str, Option<String>); N]) -> String {
    let lines = lines.into_iter().filter_map(|(name, words)| Some((name, words?))).collect_vec();
    if lines.is_empty() { String::new() } else { facts(&lines) }
}

fn order(way: &Way<'_>, currency: &str) -> String {
    if way.order.is_empty() {
        return paragraph(NOTHING);
    }
    let row = |line: &Line<'_>| vec![named(line), line.count.to_string(), (line.price * line.count).to_string()];
    let sum = (way.order.len() > 1).then(|| vec!["in all".to_owned(), String::new(), way.bill.to_string()]);
    let columns = vec![Column::words("what"), Column::numbers("how many"), Column::numbers(currency)];
    table("The cheapest order", &Table::plain(columns, way.order.iter().map(row).chain(sum)))
}

/// Names of any length find room.
const STYLE: &str = "tbody th { overflow-wrap: anywhere }\n";
