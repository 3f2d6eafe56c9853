//! One head in one model, for people.

use super::head::head;
use super::page::{Page, bold, mm, percent, whole_minutes};
use crate::catalogue::Catalogue;
use crate::fit::{Band, Customer, Inspection, PadSet, SetVerdict};
use crate::profile::{Axis, Trade, Zone};
use crate::render::json::Warning;
use itertools::Itertools;

/// Pad sets that are listed behind the best.
const OTHERS: usize = 6;

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
    zones(&mut page, inspection);
    sets(&mut page, catalogue, inspection);
    page.cautions(cautions);
    page.finish()
}

fn summary(page: &mut Page, catalogue: &Catalogue, inspection: &Inspection<'_>) {
    let candidate = &inspection.candidate;
    page.heading(&format!("FIT  {}", candidate.title()));
    let best = inspection.verdict.best();
    let nominal = candidate.nominal.dimensions(catalogue.shop.fit.outline);
    page.wrapped(
        "  made for  ",
        &format!(
            "circumference {:.0}, length {:.1}, breadth {:.1}, face width {:.1} mm; shape index {:.1} ({})",
            candidate.nominal.circumference,
            nominal[0],
            nominal[1],
            nominal[2],
            candidate.nominal.shape_index,
            catalogue.shop.words.word(candidate.nominal.shape_index)
        ),
    );
    let verdict = match best.reason {
        None => "the expected head fits, the profile taken at its word".to_owned(),
        Some(reason) => format!("the expected head does not fit even with the best pads: {}", reason.words()),
    };
    page.wrapped("  verdict   ", &verdict);
    let chance = format!(
        "{} with the pads on offer, errors of measures and profile included (sampling error {:.1} points)",
        percent(inspection.fit.value),
        inspection.fit.error * 100.0 + 0.05
    );
    page.wrapped("  chance    ", &chance);
    let mut sizes = inspection.sizes.iter().map(|chance| format!("{} {}", chance.size, percent(chance.fit.value)));
    page.wrapped("  sizes     ", &sizes.join(", "));
}

fn zones(page: &mut Page, inspection: &Inspection<'_>) {
    let best = inspection.verdict.best();
    page.heading("ZONES of the expected head with the best pads");
    page.line(&format!(
        "  {:<9}  {:>6}  {:>6}  {:<9}  {:>26}  {:>5}  {:>5}",
        "zone", "pad mm", "strain", "band", "whatever the pads: loose", "good", "tight"
    ));
    for zone in Zone::ALL {
        let Some(axis) = Axis::ALL.iter().position(|axis| zone.axis() == Some(*axis)) else { continue };
        let (Some(pad), Some(strain), Some(band)) = (*best.pads.get(zone), best.strain[axis], best.band[axis]) else {
            continue;
        };
        let [loose, good, tight] = inspection.classes[axis].map(|quote| percent(quote.value));
        let row = format!(
            "  {:<9}  {:>6}  {:>6}  {:<9}  {:>26}  {:>5}  {:>5}",
            zone.name(),
            mm(pad),
            // Foam can't be squeezed to less than nothing: such a head doesn't go in.
            if strain < 1.0 { format!("{strain:.2}") } else { ">1".to_owned() },
            band.name(),
            loose,
            good,
            tight
        );
        page.line(&if band == Band::Good { row } else { bold(&row) });
    }
    page.wrapped("  ", "Brow and rear share one strain: the foam front to back. The crown shows only on the head.");
}

fn sets(page: &mut Page, catalogue: &Catalogue, inspection: &Inspection<'_>) {
    let candidate = &inspection.candidate;
    page.heading("PADS, the best first");
    let standard = &candidate.size.standard;
    let currency = catalogue.shop.currency.as_str();
    // The standard pads are always worth a look, however far behind.
    let shown = |(at, set): &(usize, &SetVerdict)| *at <= OTHERS || set.swaps == 0;
    for (at, set) in inspection.verdict.sets.iter().enumerate().filter(shown) {
        let cost = format!("{} min, {} {currency}", whole_minutes(set.minutes), set.price);
        page.hanging(
            &format!("{:>3}. ", at + 1),
            5,
            &format!("{} - {cost} - {}", named(standard, &set.pads), why(set, inspection.verdict.best())),
        );
    }
    let left = inspection.verdict.sets.iter().enumerate().filter(|pair| !shown(pair)).count();
    if left > 0 {
        page.line(&format!("     and {left} more sets, each less even or a worse fit"));
    }
    if inspection.verdict.sets.len() == 1 {
        page.line("     this shell offers no other pads for this size");
    } else if matches!(candidate.model.trade, Trade::Exchange { .. }) {
        page.line("     the standard pads go back to the maker in exchange");
    }
}

/// Zones in which a set differs from the standard pads.
fn named(standard: &PadSet, set: &PadSet) -> String {
    let mut changed = set.iter().filter_map(|(zone, pad)| {
        let (pad, standard) = ((*pad)?, (*standard.get(zone))?);
        ((pad - standard).abs() > 1e-9).then(|| format!("{} {} mm", zone.name(), mm(pad)))
    });
    let changed = changed.join(", ");
    if changed.is_empty() { "standard pads".to_owned() } else { changed }
}

/// Why a set stands where it stands.
fn why(set: &SetVerdict, best: &SetVerdict) -> String {
    match set.reason {
        Some(reason) => format!("does not fit: {}", reason.words()),
        None if std::ptr::eq(set, best) => "fits, the most even".to_owned(),
        None => format!("fits, less even ({:.4} against {:.4})", set.unevenness, best.unevenness),
    }
}
