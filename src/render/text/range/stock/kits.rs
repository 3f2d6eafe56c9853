//! Kits: what they cost, in which order to buy them, what lies in each.

use super::facts;
use crate::fit::Quote;
use crate::render::StockReport;
use crate::render::range_words::stock::{self, WHEN_WANTED, both, money, named, pads_of, price, short, to_have, won};
use crate::render::text::page::{Page, fixed};
use itertools::Itertools;

pub(super) fn total(page: &mut Page, report: &StockReport<'_>) {
    page.heading("THE DRAWER");
    facts(page, &[("to have", to_have(report))]);
    facts(page, &price(report));
}

pub(super) fn in_order(page: &mut Page, report: &StockReport<'_>) {
    let order = &report.drawer.order;
    page.heading("KITS, in the order to buy them");
    page.line("     shell                              pads     price     spent    won   served");
    let line = |number: &str, name: &str, figures: &str, served: Quote| {
        format!("{number:>4} {}{figures:>34}{:>9}", fixed(name, 32), format!("{:.1}", served.value * 100.0))
    };
    page.line(&line("", "with the standard pads alone", "", order.before.quote));
    for (at, step) in order.steps.iter().enumerate() {
        let kit = &report.drawer.kits[step.kit];
        let (bill, spent) = (short(kit.purchase.bill), short(step.spent));
        let figures = format!("{:>7}{bill:>10}{spent:>10}{:>7}", pads_of(report, kit), won(step));
        page.line(&line(&format!("{}.", at + 1), &named(report, kit), &figures, step.served.quote));
    }
    let (words, idle) = stock::in_order(report);
    page.wrapped("     ", &words);
    if let Some(idle) = idle {
        page.wrapped("  win nobody more, but leave a wider choice: ", "");
        page.wrapped("     ", &idle);
    }
}

pub(super) fn budget(page: &mut Page, report: &StockReport<'_>) {
    let Some(bought) = &report.drawer.order.budget else { return };
    page.heading(&format!("FOR {}", money(report, bought.budget)));
    facts(page, &stock::proof(report, bought));
}

pub(super) fn contents(page: &mut Page, report: &StockReport<'_>) {
    if report.drawer.kits.is_empty() {
        return;
    }
    page.heading("WHAT LIES IN THEM: mm, one of each where nothing else is said");
    for (number, kit) in stock::stocked(report) {
        let number = number.map_or_else(|| "   - ".to_owned(), |number: usize| format!("{number:>3}. "));
        page.wrapped(&number, &format!("{}: {}", named(report, kit), stock::contents(report, kit)));
    }
    page.wrapped("     ", WHEN_WANTED);
}

pub(super) fn both_ways(page: &mut Page, report: &StockReport<'_>) {
    let kits =
        report.drawer.kits.iter().filter(|kit| report.shows(kit.model) && !kit.both_ways.is_empty()).collect_vec();
    if kits.is_empty() {
        return;
    }
    page.heading("SOLD SINGLY AND IN PACKS");
    for kit in kits {
        let each = kit.both_ways.iter().map(|way| both(&report.drawer.pads[way.pad], way));
        for words in each {
            page.wrapped("  - ", &format!("{}: {words}", named(report, kit)));
        }
    }
}
