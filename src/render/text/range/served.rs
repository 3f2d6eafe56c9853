//! The range: who is served.

use super::map::{by_cell, helmets};
use crate::catalogue::Catalogue;
use crate::range::{Alone, Customers, Own, Served};
use crate::render::range_words::figures::{between, of_hundred, percent, whole};
use crate::render::range_words::served::{
    LETTERS, MODELS, MOST_LETTERS, best_at, elsewhere, how, nearest, of_lost, pads_win,
};
use crate::render::text::page::{Page, fixed};
use itertools::Itertools;

/// The range as a page.
#[must_use]
pub fn served(catalogue: &Catalogue, customers: &Customers<'_>, served: &Served<'_>, cautions: &[&str]) -> String {
    let mut page = Page::default();
    super::customers(&mut page, customers);
    totals(&mut page, served);
    parts(&mut page, catalogue, served);
    models(&mut page, served);
    overlap(&mut page, served);
    page.heading("THE MAP  how many models serve a customer, on average, with the pads on offer");
    helmets(&served.map).iter().for_each(|line| page.line(line));
    page.heading("THE CUSTOMERS  of 1,000, on the same map");
    by_cell(&served.map).iter().for_each(|line| page.line(line));
    gaps(&mut page, served);
    page.heading("HOW SURE");
    page.wrapped("  ", &how(served));
    page.cautions(cautions);
    page.finish()
}

fn totals(page: &mut Page, served: &Served<'_>) {
    page.heading("WHO IS SERVED  by at least one helmet");
    page.line("                              of 100 customers   if profiles are off");
    for (name, figure) in [("with standard pads", served.standard), ("with every pad on offer", served.on_offer)] {
        page.line(&format!("  {name:<28}{:>16}{:>22}", of_hundred(figure.quote), between(figure.spread)));
    }
    page.wrapped("  ", &pads_win(served));
}

fn parts(page: &mut Page, catalogue: &Catalogue, served: &Served<'_>) {
    page.heading("BY TYPE AND PRICE  if customers take nothing else, of 100");
    page.line("                               models    standard pads    every pad on offer");
    for part in &served.by_kind {
        page.line(&part_line(part.which.name(), part));
    }
    for part in &served.by_price {
        page.line(&part_line(&format!("up to {} {}", part.which, catalogue.shop.currency), part));
    }
}

fn part_line<T>(name: &str, part: &Alone<T>) -> String {
    let [standard, on_offer] = [part.standard, part.on_offer].map(of_hundred);
    format!("  {}{:>9}{standard:>17}{on_offer:>22}", fixed(name, 28), part.models)
}

fn models(page: &mut Page, served: &Served<'_>) {
    page.heading("BY MODEL AND FAMILY  of 100 customers");
    page.line("                           standard  every  only     best  where it is the best");
    page.line("                               pads    pad  this      fit        cm     index");
    let letters = LETTERS.chars().chain(std::iter::repeat(' '));
    for (own, letter) in served.models.iter().zip(letters) {
        page.line(&own_line(&format!("{letter} {}", own.models[0].name), own));
    }
    for (_, family, own) in served.families.iter().filter(|(_, _, own)| own.models.len() > 1) {
        page.line(&own_line(&format!("  all {} {family}", own.models.len()), own));
    }
    page.wrapped("  ", MODELS);
}

fn own_line(name: &str, own: &Own<'_>) -> String {
    let [standard, any] = [own.standard, own.on_offer.quote].map(|quote| percent(quote.value));
    let [only, best] = [own.only.quote, own.best].map(|quote| percent(quote.value));
    let at = best_at(own).map_or_else(String::new, |[cm, index]| format!("{cm:>10}{index:>10}"));
    format!("  {}{standard:>7}{any:>7}{only:>6}{best:>9}{at}", fixed(name, 26))
}

fn overlap(page: &mut Page, served: &Served<'_>) {
    let count = served.models.len();
    if !(2..=MOST_LETTERS).contains(&count) {
        return;
    }
    page.heading("OVERLAP  of 100 customers whom a row serves, the column serves so many, too");
    page.line(&format!("   {}", LETTERS.chars().take(count).map(|letter| format!("{letter:>4}")).join("")));
    for ((one, row), letter) in served.overlap.iter().enumerate().zip(LETTERS.chars()) {
        let share = |(other, share): (usize, &f64)| {
            if one == other { "   .".to_owned() } else { format!("{:>4}", whole(*share)) }
        };
        page.line(&format!("  {letter}{}", row.iter().enumerate().map(share).collect_vec().concat()));
    }
}

fn gaps(page: &mut Page, served: &Served<'_>) {
    page.heading("GAPS  where most customers fit nothing, most of them first");
    for gap in &served.gaps.gaps {
        let nearest = nearest(gap).map_or_else(String::new, |words| format!(" Nearest: {words}."));
        page.hanging("  ", 4, &format!("{}{nearest}", of_lost(gap, served)));
    }
    page.wrapped("  ", &elsewhere(served));
}
