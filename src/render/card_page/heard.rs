//! What is heard of a model, and where to go then.

use super::figures::{rule, size, whole};
use super::{Part, Section};
use crate::card::{Card, Complaint, Next, ShopsNext, Swap, Turn};
use crate::catalogue::Catalogue;
use crate::profile::Edge;
use crate::render::diagnostics::one_line;
use crate::render::range_words::figures::of_hundred;
use crate::render::table::{Cell, Column, Table};
use itertools::Itertools;

/// How often what is heard.
pub(super) fn heard(card: &Card<'_>) -> Section {
    let complaints = &card.complaints;
    let words = format!(
        "Of 100 customers in the size that the tape says {} fit at once and {} with some pads. Stays: with the best pads.",
        whole(complaints.at_once),
        whole(complaints.with_pads)
    );
    let columns = vec![
        Column::words("what is heard"),
        Column::numbers("at first"),
        Column::numbers("pads help"),
        Column::numbers("stays"),
    ];
    let rows = complaints.list.iter().filter(|complaint| !complaint.is_rare()).map(|complaint| {
        let mut row = vec![Cell::from(complaint.reason.words().to_owned())];
        row.extend([complaint.heard, complaint.cured, complaint.stays].map(|share| Cell::from(of_hundred(share))));
        row
    });
    let table = Table { columns, rows: rows.collect() };
    let mut parts = vec![Part::Words(words), Part::Table(table)];
    let rarely = complaints.list.iter().filter(|complaint| complaint.is_rare() && complaint.heard.value > 0.0);
    let rarely = rarely.map(|complaint| complaint.reason.words()).join("; ");
    if !rarely.is_empty() {
        parts.push(Part::Words(format!("Rarely, fewer than 1 in 200: {rarely}.")));
    }
    Section { key: "heard", title: "What is heard", parts }
}

/// What to do about each complaint.
pub(super) fn next(card: &Card<'_>, catalogue: &Catalogue) -> Section {
    let items = card.complaints.list.iter().filter_map(|complaint| after(card, complaint, catalogue)).collect_vec();
    let words = "What mostly helps; else the next helmet, with how many it fits of 100 with whom the complaint stays.";
    let parts = if items.is_empty() { Vec::new() } else { vec![Part::Words(words.to_owned()), Part::List(items)] };
    Section { key: "next", title: "Where to go next", parts }
}

/// The shop's rules for what no geometry tells.
pub(super) fn other_rules(card: &Card<'_>, catalogue: &Catalogue) -> Section {
    let item =
        |(_, edge): &(usize, &Edge)| format!("if {}: {}", edge.reason.words(), rule(name(edge, catalogue), edge));
    let items = card.other_rules.iter().map(item).collect_vec();
    let parts = if items.is_empty() { Vec::new() } else { vec![Part::List(items)] };
    Section { key: "rules", title: "The shop's other rules", parts }
}

/// `None` where there is nothing to say: it is rare, and the shop has no rule.
fn after(card: &Card<'_>, complaint: &Complaint<'_>, catalogue: &Catalogue) -> Option<String> {
    let mut steps = Vec::new();
    if !complaint.is_rare_at_once() {
        steps.extend(complaint.swaps.first().map(swap));
    }
    let computed = complaint.computed.as_ref().filter(|_| !complaint.hardly_stays());
    let is_same = |next: &&ShopsNext<'_>| computed.is_some_and(|computed| is_the_same(computed, next.edge));
    if !complaint.hardly_stays() {
        let agreed = complaint.shop.iter().find(is_same);
        let agreed = agreed
            .map_or_else(String::new, |next| format!(" (the shop's rule, too: \"{}\")", one_line(&next.edge.note)));
        let words = computed.map_or_else(|| "no model fits".to_owned(), |next| words(card, next));
        let instead = if steps.is_empty() { "" } else { "else " };
        steps.push(format!("{instead}{words}{agreed}"));
    }
    for next in complaint.shop.iter().filter(|next| !is_same(next)) {
        let fits = next.fits.filter(|_| !complaint.hardly_stays());
        let fits = fits.map_or_else(String::new, |fits| format!(", fits {}", of_hundred(fits)));
        steps.push(format!("shop's rule: {}{fits}", rule(name(next.edge, catalogue), next.edge)));
    }
    (!steps.is_empty()).then(|| format!("if {}: {}", complaint.reason.words(), steps.join("; ")))
}

/// Whether a rule leads to the same model in the same size.
fn is_the_same(computed: &Next<'_>, edge: &Edge) -> bool {
    edge.to == computed.to.id && edge.size.as_ref() == Some(&computed.size)
}

fn swap(swap: &Swap) -> String {
    let of = |wanted: Turn| swap.zones.iter().filter(move |(_, turn)| *turn == wanted).map(|(zone, _)| zone.name());
    let turned = [(Turn::Thinner, "thinner"), (Turn::Thicker, "thicker")].map(|(turn, word)| {
        let zones = of(turn).join(" and ");
        if zones.is_empty() { String::new() } else { format!("{word} {zones}") }
    });
    turned.iter().filter(|words| !words.is_empty()).join(", ")
}

fn words(card: &Card<'_>, next: &Next<'_>) -> String {
    let name = if next.to.id == card.model.id { "this one".to_owned() } else { one_line(&next.to.name) };
    format!("{name}, {}, fits {}", size(Some(&next.size)), of_hundred(next.fits))
}

/// How people call the model that a rule leads to.
fn name<'n>(edge: &'n Edge, catalogue: &'n Catalogue) -> &'n str {
    catalogue.model(edge.to.as_str()).map_or(edge.to.as_str(), |model| &model.name)
}
