//! Pads for the drawer, for people.

mod kits;
mod pads;

use crate::render::StockReport;
use crate::render::range_words::stock::{CUSTOMERS, Row, ZONES, asked, customers, title, zones};
use crate::render::text::page::Page;

/// The drawer as a page.
#[must_use]
pub fn range_stock(report: &StockReport<'_>) -> String {
    let mut page = Page::default();
    page.warnings(report.warnings.iter().map(|warning| warning.message.as_str()));
    page.heading(&format!("DRAWER  {}", title(report)));
    facts(&mut page, &asked(report));
    match report.only {
        Some(_) => {
            pads::by_shell(&mut page, report);
            kits::budget(&mut page, report);
        }
        None => {
            of_customers(&mut page, report);
            kits::total(&mut page, report);
            kits::in_order(&mut page, report);
            kits::budget(&mut page, report);
            kits::contents(&mut page, report);
            kits::both_ways(&mut page, report);
            of_zones(&mut page, report);
        }
    }
    page.cautions(report.cautions);
    page.finish()
}

/// Names with what is said of each.
fn facts(page: &mut Page, facts: &[(&str, String)]) {
    facts.iter().for_each(|(name, words)| page.wrapped(&format!("  {name:<10}"), words));
}

fn of_customers(page: &mut Page, report: &StockReport<'_>) {
    page.heading("OF 100 CUSTOMERS                                         where profiles are off");
    customers(report).iter().for_each(|figure| row(page, figure));
    page.wrapped("     ", CUSTOMERS);
}

fn row(page: &mut Page, Row { name, value, error, between }: &Row) {
    page.line(&format!("  {name:<38}{value:>9}{error:<8}{between:>21}"));
}

fn of_zones(page: &mut Page, report: &StockReport<'_>) {
    let zones = zones(report);
    if zones.is_empty() {
        return;
    }
    page.heading("WITHOUT A ZONE'S PADS, of 100 customers                  where profiles are off");
    zones.iter().for_each(|figure| row(page, figure));
    page.wrapped("     ", ZONES);
}
