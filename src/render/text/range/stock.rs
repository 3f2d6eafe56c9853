//! Pads for the drawer, for people.

mod kits;
mod pads;

use super::super::page::{Page, percent};
use crate::range::Figure;
use crate::range::Spread;
use crate::render::StockReport;
use crate::render::text::audit::thousands;
use crate::unit::{Money, plain};

/// The drawer as a page.
#[must_use]
pub fn range_stock(report: &StockReport<'_>) -> String {
    let mut page = Page::default();
    page.warnings(report.warnings.iter().map(|warning| warning.message.as_str()));
    asked(&mut page, report);
    match report.only {
        Some(_) => {
            pads::by_shell(&mut page, report);
            kits::budget(&mut page, report);
        }
        None => {
            customers(&mut page, report);
            kits::total(&mut page, report);
            kits::in_order(&mut page, report);
            kits::budget(&mut page, report);
            kits::contents(&mut page, report);
            kits::both_ways(&mut page, report);
            zones(&mut page, report);
        }
    }
    page.cautions(report.cautions);
    page.finish()
}

fn asked(page: &mut Page, report: &StockReport<'_>) {
    let rules = &report.question.rules;
    let title = match report.only {
        Some(model) => model.name.clone(),
        None if report.models.len() == 1 => "1 model".to_owned(),
        None => format!("{} models", report.models.len()),
    };
    page.heading(&format!("DRAWER  {title}"));
    let (count, whose) = report.customers;
    page.wrapped("  asked     ", &format!("{} customers with heads of {whose}", thousands(count)));
    let until = format!(
        "{:.1} customers until the next delivery: {} a week, {} days from the order to the pad",
        report.drawer.customers,
        plain(rules.customers_per_week),
        plain(rules.delivery_days)
    );
    page.wrapped("  wanted by ", &until);
    let stock = match rules.margin {
        None => {
            format!("of each pad the fewest that are enough with a probability of {}", percent(rules.service_level))
        }
        Some(margin) => format!(
            "of each pad as many as lose least: one that is missing loses {} of its price, one left over {}",
            percent(margin),
            percent(rules.left_over_loss)
        ),
    };
    page.wrapped("  stock     ", &stock);
    let chosen = match report.recorded {
        None => "each as likely as another".to_owned(),
        Some(fits) => format!("each in proportion to 1 and the fits that were recorded of it ({fits} in all)"),
    };
    let words = format!(
        "a customer takes one of the models that fit, {chosen}, in the size and with the pads that need the fewest \
         minutes of swapping; of those the most even fit. Customers know nothing of each other."
    );
    page.wrapped("  assumed   ", &words);
}

fn customers(page: &mut Page, report: &StockReport<'_>) {
    page.heading("OF 100 CUSTOMERS                                         where profiles are off");
    let one = &report.drawer.customer;
    let currency = &report.catalogue.shop.currency;
    row(page, "leave with the standard pads", &one.standard, 100.0);
    row(page, "leave with other pads", &one.swapped, 100.0);
    row(page, "leave with nothing", &one.nothing, 100.0);
    row(page, "are served by pads alone", &one.won, 100.0);
    row(page, "pads that are swapped in", &one.pads, 100.0);
    row(page, &format!("what these cost, {currency}"), &one.spend, 1.0);
    // A customer for each minor unit is 10,000 for a hundred major ones.
    row(page, &format!("are won by 100 {currency} of them"), &one.won_by_spending, 10_000.0);
    let words = "±: four standard errors of the sampling, with the profiles taken at their word. Where profiles are off as \
                 far as they say, nine in ten such ranges lie between the figures on the right. Served by pads alone: no \
                 helmet fits them with its standard pads. A pad of a pack costs an equal share of it.";
    page.wrapped("     ", words);
}

fn row(page: &mut Page, name: &str, figure: &Figure, scale: f64) {
    let digits = if figure.quote.value * scale < 10.0 { 2 } else { 1 };
    let value = format!("{:.digits$}", figure.quote.value * scale + 0.0);
    let error = format!("±{:.digits$}", figure.quote.error * scale);
    page.line(&format!("  {name:<38}{value:>9}{error:<8}{:>21}", between(figure.spread, scale, digits)));
}

/// Where nine in ten worlds lie.
fn between(spread: Spread, scale: f64, digits: usize) -> String {
    format!("{:.digits$} to {:.digits$}", spread.from * scale + 0.0, spread.to * scale + 0.0)
}

fn zones(page: &mut Page, report: &StockReport<'_>) {
    if report.drawer.zones.is_empty() {
        return;
    }
    page.heading("WITHOUT A ZONE'S PADS, of 100 customers                  where profiles are off");
    for loss in &report.drawer.zones {
        row(page, &format!("lost with standard {} pads alone", loss.zone.name()), &loss.lost, 100.0);
    }
    page.wrapped("     ", "Lost: some helmet fits them with the pads on offer, and none would without these.");
}

/// An amount that was computed, to two digits.
fn amount(minor: f64) -> String {
    format!("{:.2}", minor / 100.0 + 0.0)
}

/// Pads that nobody asked for.
fn along(count: u32) -> String {
    if count == 1 {
        "1 more pad comes along in a pack".to_owned()
    } else {
        format!("{count} more pads come along in packs")
    }
}

/// An amount of the shop's currency.
fn money(report: &StockReport<'_>, amount: Money) -> String {
    format!("{amount} {}", report.catalogue.shop.currency)
}
