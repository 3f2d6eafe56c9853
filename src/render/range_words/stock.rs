//! Pads for the drawer.

mod kits;
mod pads;

pub(in crate::render) use kits::{
    WHEN_WANTED, both, contents, in_order, named, pads_of, price, proof, short, stocked, to_have, won,
};
pub(in crate::render) use pads::{of_shell, order, probably, used, worth};

use super::figures::heads;
use crate::range::{Figure, Spread};
use crate::render::StockReport;
use crate::render::text::percent;
use crate::unit::{Money, plain};

/// What the shares of customers count.
pub(in crate::render) const CUSTOMERS: &str = "±: four standard errors of the sampling, with the profiles taken at their word. Where profiles are off as \
                                               far as they say, nine in ten such ranges lie between the figures on the right. Served by pads alone: no \
                                               helmet fits them with its standard pads. A pad of a pack costs an equal share of it.";

/// Who is lost without a zone's pads.
pub(in crate::render) const ZONES: &str =
    "Lost: some helmet fits them with the pads on offer, and none would without these.";

/// What the columns of a model's pads are.
pub(in crate::render) const PADS: &str = "used by 100: of 100 customers of the whole range, ±: four standard errors; wanted: until the next \
                                          delivery, on average; enough: the probability that the stock is; price: singly, or * as an equal share of \
                                          a pack. A stock of 0: order it when it is wanted.";

/// Said of a model without pads to choose from.
pub(in crate::render) const NO_PADS: &str = "no other pads are on offer";

/// What the drawer is for.
pub(in crate::render) fn title(report: &StockReport<'_>) -> String {
    match report.only {
        Some(model) => model.name.clone(),
        None if report.models.len() == 1 => "1 model".to_owned(),
        None => format!("{} models", report.models.len()),
    }
}

/// What was asked, and what is assumed.
pub(in crate::render) fn asked(report: &StockReport<'_>) -> [(&'static str, String); 4] {
    let rules = &report.question.rules;
    let (count, whose) = report.customers;
    let until = format!(
        "{:.1} customers until the next delivery: {} a week, {} days from the order to the pad",
        report.drawer.customers,
        plain(rules.customers_per_week),
        plain(rules.delivery_days)
    );
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
    let chosen = match report.recorded {
        None => "each as likely as another".to_owned(),
        Some(fits) => format!("each in proportion to 1 and the fits that were recorded of it ({fits} in all)"),
    };
    let assumed = format!(
        "a customer takes one of the models that fit, {chosen}, in the size and with the pads that need the fewest \
         minutes of swapping; of those the most even fit. Customers know nothing of each other."
    );
    [
        ("asked", format!("{} customers with heads of {whose}", heads(count as u64))),
        ("wanted by", until),
        ("stock", stock),
        ("assumed", assumed),
    ]
}

/// A figure with its name.
pub(in crate::render) struct Row {
    pub(in crate::render) name: String,
    pub(in crate::render) value: String,
    pub(in crate::render) error: String,
    /// Where nine in ten worlds lie.
    pub(in crate::render) between: String,
}

impl Row {
    /// The figure times the scale.
    fn of(name: impl Into<String>, figure: &Figure, scale: f64) -> Self {
        let digits = if figure.quote.value * scale < 10.0 { 2 } else { 1 };
        Self {
            name: name.into(),
            value: format!("{:.digits$}", figure.quote.value * scale + 0.0),
            error: format!("±{:.digits$}", figure.quote.error * scale),
            between: between(figure.spread, scale, digits),
        }
    }
}

/// Of 100 customers.
pub(in crate::render) fn customers(report: &StockReport<'_>) -> [Row; 7] {
    let one = &report.drawer.customer;
    let currency = &report.catalogue.shop.currency;
    [
        Row::of("leave with the standard pads", &one.standard, 100.0),
        Row::of("leave with other pads", &one.swapped, 100.0),
        Row::of("leave with nothing", &one.nothing, 100.0),
        Row::of("are served by pads alone", &one.won, 100.0),
        Row::of("pads that are swapped in", &one.pads, 100.0),
        Row::of(format!("what these cost, {currency}"), &one.spend, 1.0),
        // A customer for each minor unit is 10,000 for a hundred major ones.
        Row::of(format!("are won by 100 {currency} of them"), &one.won_by_spending, 10_000.0),
    ]
}

/// What each zone is worth.
pub(in crate::render) fn zones(report: &StockReport<'_>) -> Vec<Row> {
    let lost = |zone: &str| format!("lost with standard {zone} pads alone");
    report.drawer.zones.iter().map(|loss| Row::of(lost(loss.zone.name()), &loss.lost, 100.0)).collect()
}

/// Where nine in ten worlds lie.
pub(in crate::render) fn between(spread: Spread, scale: f64, digits: usize) -> String {
    format!("{:.digits$} to {:.digits$}", spread.from * scale + 0.0, spread.to * scale + 0.0)
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
pub(in crate::render) fn money(report: &StockReport<'_>, amount: Money) -> String {
    format!("{amount} {}", report.catalogue.shop.currency)
}
