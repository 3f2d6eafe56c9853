//! What a customer takes home.

use super::super::page::{Page, bold, mm, whole_minutes};
use super::{round_words, tried_words};
use crate::catalogue::Catalogue;
use crate::counter::{Fitted, Summary};
use crate::unit::Money;
use itertools::Itertools;

/// How to look after it. Common practice, no source.
const CARE: &[&str] = &[
    "New cheek pads bed in: held firmly is right on the first day. What presses at the crown or the temples never beds in: come back with it.",
    "Check the fit again after the first rides, and whenever pads were washed or swapped.",
    "Wash pads and shell as the maker says. No paint, stickers or solvents on the shell unless the maker allows them.",
    "Every ride with the strap closed.",
];

/// The end of a session on one page.
#[must_use]
pub fn counter_summary(
    catalogue: &Catalogue,
    summary: &Summary<'_>,
    customer: Option<u64>,
    cautions: &[&str],
) -> String {
    let mut page = Page::default();
    page.line("");
    let who = customer.map_or_else(String::new, |number| format!("  customer {number}"));
    match &summary.fitted {
        Some(fitted) => {
            page.heading(&format!("FITTED  {} in {}{who}", fitted.model.name, fitted.size.label));
            pads(&mut page, catalogue, fitted);
        }
        None => {
            page.heading(&format!("NO HELMET{who}"));
            page.wrapped("  ", "Nothing that was tried fits. None is better than one that doesn't.");
        }
    }
    for (at, tried) in summary.tried.iter().enumerate() {
        let lead = if at == 0 { "  tried     " } else { "            " };
        let words = match tried.helmet.is_swap {
            true => format!("then {}", round_words(catalogue, tried)),
            false => tried_words(catalogue, tried),
        };
        page.hanging(lead, 14, &words);
    }
    let helmets = if summary.helmets == 1 { "1 helmet".to_owned() } else { format!("{} helmets", summary.helmets) };
    let minutes = whole_minutes(summary.minutes);
    page.wrapped("  took      ", &format!("{helmets}, {minutes} minutes in the shop's reckoning"));
    if summary.fitted.is_some() {
        page.heading("CARE");
        CARE.iter().for_each(|line| page.wrapped("  - ", line));
    }
    page.cautions(cautions);
    page.finish()
}

fn pads(page: &mut Page, catalogue: &Catalogue, fitted: &Fitted<'_>) {
    let zones = fitted.pads.iter().filter_map(|(zone, pad)| {
        let (own, standard) = ((*pad)?, (*fitted.size.standard.get(zone))?);
        let is_standard = (own - standard).abs() < 1e-9;
        Some(if is_standard {
            format!("{} {}", zone.name(), mm(own))
        } else {
            format!("{} {}", zone.name(), bold(&format!("{} instead of {}", mm(own), mm(standard))))
        })
    });
    page.wrapped("  pads      ", &format!("{} mm", zones.collect_vec().join(", ")));
    if fitted.pad_price > Money::default() {
        let words = format!(
            "those that are not standard cost {} {}; they are the maker's for this model and its shell \"{}\", and fit no other",
            fitted.pad_price, catalogue.shop.currency, fitted.shell.id
        );
        page.wrapped("            ", &words);
    }
    let marks = match fitted.model.attributes.approvals.as_slice() {
        [] => "none in the profile: look for it on the helmet".to_owned(),
        marks => format!("{}, as the profile says: look for it on the helmet", marks.join(", ")),
    };
    page.wrapped("  approval  ", &marks);
}
