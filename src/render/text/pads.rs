//! What to order for a pad set, for people.

use super::page::{Page, fixed};
use crate::catalogue::Catalogue;
use crate::render::pads_words::{
    NOTHING, customer_pays, from_drawer, goes_back, helmet, left_over, named, next_best, shop_pays, stays, wanted,
};
use crate::supply::{Supplied, Way, Wish};

/// The order as a page.
#[must_use]
pub fn pads(catalogue: &Catalogue, wish: &Wish<'_>, supplied: &Supplied<'_>, cautions: &[&str]) -> String {
    let mut page = Page::default();
    let currency = catalogue.shop.currency.as_str();
    page.heading(&format!("PADS  {}", helmet(wish)));
    page.wrapped("  wanted    ", &wanted(wish));
    page.heading(&format!("ORDER from {}", wish.model.maker));
    order(&mut page, &supplied.best, currency);
    told(&mut page, "  drawer    ", from_drawer(&supplied.best, currency));
    told(&mut page, "  left over ", left_over(&supplied.best, currency));
    told(&mut page, "  next best ", next_best(supplied, currency));
    let [back, stays] = [goes_back(wish, supplied, currency), stays(wish, supplied)];
    if back.is_some() || stays.is_some() {
        page.heading("WHAT COMES OUT");
    }
    told(&mut page, "  goes back ", back);
    told(&mut page, "  stays     ", stays);
    page.heading("WHO PAYS");
    told(&mut page, "  customer  ", customer_pays(wish, supplied, currency));
    page.wrapped("  shop      ", &shop_pays(supplied, currency));
    page.cautions(cautions);
    page.finish()
}

fn told(page: &mut Page, name: &str, words: Option<String>) {
    if let Some(words) = words {
        page.wrapped(name, &words);
    }
}

fn order(page: &mut Page, way: &Way<'_>, currency: &str) {
    for line in &way.order {
        let price = line.price * line.count;
        page.line(&format!("  {:>2} x {}{:>10}", line.count, fixed(&named(line), 56), price.to_string()));
    }
    match way.order.len() {
        0 => page.line(&format!("  {NOTHING}")),
        1 => page.line(&format!("  prices in {currency}")),
        _ => page.line(&format!("  {}{:>10}", fixed(&format!("in all, {currency}"), 61), way.bill.to_string())),
    }
}
