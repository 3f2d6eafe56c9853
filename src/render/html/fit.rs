//! One head in one model.

use super::Page;
use super::block::{beside, cautions, facts, figure, list, paragraph, section, table, warnings};
use super::head::head;
use crate::catalogue::Catalogue;
use crate::fit::{Customer, Inspection};
use crate::render::fit_words::{
    ZONES, ZoneRow, below_sets, chance, made_for, named, shown_sets, verdict, why, zone_rows,
};
use crate::render::json::Warning;
use crate::render::svg::{Kind, cross_section};
use crate::render::table::{Cell, Column, Table};
use crate::render::text::{known, whole_minutes};
use itertools::Itertools;

/// The inspection as a page.
#[must_use]
pub fn fit(
    catalogue: &Catalogue,
    customer: &Customer<'_>,
    inspection: &Inspection<'_>,
    odd: &[Warning],
    said: &[&str],
) -> String {
    let title = inspection.candidate.title();
    let known = known(catalogue, customer);
    let picture = cross_section(&inspection.section(&catalogue.shop.fit), &title, "fit");
    let main = [
        warnings(odd.iter().map(|warning| warning.message.as_str())),
        beside(&[summary(catalogue, inspection), figure(&picture, CAPTION)]),
        zones(catalogue, inspection),
        sets(catalogue, inspection),
        head(&inspection.head),
    ];
    Page {
        title: &title,
        about: &format!("on one head: {known}"),
        pictures: &[Kind::Cut],
        main: main.concat(),
        footer: cautions(said),
        ..Page::default()
    }
    .finish()
}

const CAPTION: &str = "The expected head with the best pads, the profile taken at its word.";

fn summary(catalogue: &Catalogue, inspection: &Inspection<'_>) -> String {
    let sizes =
        inspection.sizes.iter().map(|size| vec![Cell::from(size.size.to_string()), Cell::percent(size.fit.value)]);
    let sizes = Table { columns: vec![Column::words("size"), Column::numbers("fits")], rows: sizes.collect() };
    let answer = [
        ("Verdict", verdict(inspection)),
        ("Chance", chance(inspection)),
        ("Made for", made_for(catalogue, inspection)),
    ];
    section("answer", "Does it fit?", &[facts(&answer), table("Every size with the pads on offer", &sizes)])
}

fn zones(catalogue: &Catalogue, inspection: &Inspection<'_>) -> String {
    let columns = vec![
        Column::words("zone"),
        Column::numbers("pad, mm"),
        Column::numbers("strain"),
        Column::words("feels"),
        Column::numbers("too loose"),
        Column::numbers("good"),
        Column::numbers("too tight"),
    ];
    let row = |ZoneRow { zone, felt, classes, .. }: ZoneRow| {
        let name = Cell::from(zone.name().to_owned());
        std::iter::once(name).chain(felt.map(Cell::from)).chain(classes.map(Cell::percent)).collect_vec()
    };
    let rows = zone_rows(catalogue, inspection).into_iter().map(row).collect();
    let caption = "The expected head with the best pads, and how often such a head is too loose, good and too tight \
                   whatever the pads";
    section("zones", "Zone by zone", &[table(caption, &Table { columns, rows }), paragraph(ZONES)])
}

fn sets(catalogue: &Catalogue, inspection: &Inspection<'_>) -> String {
    let currency = catalogue.shop.currency.as_str();
    let standard = &inspection.candidate.size.standard;
    let (shown, left) = shown_sets(inspection);
    let sets = shown.into_iter().map(|(rank, set)| {
        let (pads, why) = (named(standard, &set.pads), why(set, inspection.verdict.best()));
        format!("{rank}. {pads}: {why}; {} minutes, {} {currency}", whole_minutes(set.minutes), set.price)
    });
    let more = (left > 0).then(|| format!("{left} more sets are each less even or a worse fit."));
    let words = more.into_iter().chain(below_sets(inspection).map(|words| format!("Here {words}.")));
    let mut parts = vec![paragraph("The best first, with minutes and price of the swap."), list(&sets.collect_vec())];
    parts.extend(words.map(|words| paragraph(&words)));
    section("pads", "Pads", &parts)
}
