//! One head in one model, for people.

use super::head::head;
use super::page::{Page, bold, percent, whole_minutes};
use crate::catalogue::Catalogue;
use crate::fit::{Customer, Inspection};
use crate::render::fit_words::{
    ZONES, ZoneRow, below_sets, chance, made_for, named, shown_sets, verdict, why, zone_rows,
};
use crate::render::json::Warning;
use itertools::Itertools;

/// The inspection as a page.
#[must_use]
pub fn fit(
    catalogue: &Catalogue,
    customer: &Customer<'_>,
    inspection: &Inspection<'_>,
    warnings: &[Warning],
    cautions: &[&str],
) -> String {
    let mut page = Page::default();
    page.warnings(warnings.iter().map(|warning| warning.message.as_str()));
    head(&mut page, catalogue, customer, &inspection.head);
    summary(&mut page, catalogue, inspection);
    zones(&mut page, catalogue, inspection);
    sets(&mut page, catalogue, inspection);
    page.cautions(cautions);
    page.finish()
}

fn summary(page: &mut Page, catalogue: &Catalogue, inspection: &Inspection<'_>) {
    page.heading(&format!("FIT  {}", inspection.candidate.title()));
    page.wrapped("  made for  ", &made_for(catalogue, inspection));
    page.wrapped("  verdict   ", &verdict(inspection));
    page.wrapped("  chance    ", &chance(inspection));
    let mut sizes = inspection.sizes.iter().map(|chance| format!("{} {}", chance.size, percent(chance.fit.value)));
    page.wrapped("  sizes     ", &sizes.join(", "));
}

fn zones(page: &mut Page, catalogue: &Catalogue, inspection: &Inspection<'_>) {
    page.heading("ZONES of the expected head with the best pads");
    page.line(&format!(
        "  {:<9}  {:>6}  {:>6}  {:<9}  {:>26}  {:>5}  {:>5}",
        "zone", "pad mm", "strain", "band", "whatever the pads: loose", "good", "tight"
    ));
    for ZoneRow { zone, is_good, felt: [pad, strain, band], classes } in zone_rows(catalogue, inspection) {
        let [loose, good, tight] = classes.map(percent);
        let row = format!("  {:<9}  {pad:>6}  {strain:>6}  {band:<9}  {loose:>26}  {good:>5}  {tight:>5}", zone.name());
        page.line(&if is_good { row } else { bold(&row) });
    }
    page.wrapped("  ", ZONES);
}

fn sets(page: &mut Page, catalogue: &Catalogue, inspection: &Inspection<'_>) {
    page.heading("PADS, the best first");
    let standard = &inspection.candidate.size.standard;
    let currency = catalogue.shop.currency.as_str();
    let (shown, left) = shown_sets(inspection);
    for (rank, set) in shown {
        let cost = format!("{} min, {} {currency}", whole_minutes(set.minutes), set.price);
        page.hanging(
            &format!("{rank:>3}. "),
            5,
            &format!("{} - {cost} - {}", named(standard, &set.pads), why(set, inspection.verdict.best())),
        );
    }
    if left > 0 {
        page.line(&format!("     and {left} more sets, each less even or a worse fit"));
    }
    if let Some(words) = below_sets(inspection) {
        page.line(&format!("     {words}"));
    }
}
