//! What is heard of a model, and where to go then.

use super::figures::{rule, size, whole};
use super::{Cell, Column, Part, Section, Table};
use crate::card::{Card, Complaint, Next, ShopsNext, Swap, Turn};
use crate::catalogue::Catalogue;
use crate::profile::Edge;
use crate::render::diagnostics::one_line;
use crate::render::text::of_hundred;
use itertools::Itertools;

/// Swaps that a card names for a complaint.
const SWAPS: usize = 2;

/// How often what is heard.
pub(super) fn heard(card: &Card<'_>) -> Section {
    let complaints = &card.complaints;
    let words = format!(
        "Of 100 customers in its sizes, each in the size that the tape says, {} fit as it comes and {} with the pads on offer for \
         that size. The others, of 100:",
        whole(complaints.at_once),
        whole(complaints.with_pads)
    );
    let columns = vec![
        Column::words("what is heard"),
        Column::numbers("as it comes"),
        Column::numbers("pads help"),
        Column::numbers("with best pads"),
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
    Section { title: "What is heard", parts }
}

/// What to do about each complaint.
pub(super) fn next(card: &Card<'_>, catalogue: &Catalogue) -> Section {
    let items = card.complaints.list.iter().filter_map(|complaint| after(card, complaint, catalogue)).collect_vec();
    let words = "Pads of the same size first. What stays with the best of them: the next helmet, and of 100 of these heads how \
                 many it fits.";
    let parts = if items.is_empty() { Vec::new() } else { vec![Part::Words(words.to_owned()), Part::List(items)] };
    Section { title: "Where to go next", parts }
}

/// The shop's rules for what no geometry tells.
pub(super) fn other_rules(card: &Card<'_>, catalogue: &Catalogue) -> Section {
    let item = |(_, edge): &(usize, &Edge)| format!("if {}: {}", edge.reason.words(), rule(name(edge, catalogue), edge));
    let items = card.other_rules.iter().map(item).collect_vec();
    Section { title: "The shop's other rules", parts: if items.is_empty() { Vec::new() } else { vec![Part::List(items)] } }
}

/// `None` where there is nothing to do: it is rare, and the shop has no rule.
fn after(card: &Card<'_>, complaint: &Complaint<'_>, catalogue: &Catalogue) -> Option<String> {
    let is_rare = complaint.is_rare();
    let mut steps = Vec::new();
    if !is_rare && !complaint.swaps.is_empty() {
        steps.push(complaint.swaps.iter().take(SWAPS).map(swap).join(" or "));
    }
    if !is_rare && complaint.stays.value > 0.0 {
        steps.push(complaint.computed.as_ref().map_or_else(|| "else no model fits".to_owned(), |next| computed(card, next)));
    }
    steps.extend(complaint.shop.iter().map(|next| shops(next, is_rare, catalogue)));
    (!steps.is_empty()).then(|| format!("if {}: {}", complaint.reason.words(), steps.join("; ")))
}

fn swap(swap: &Swap) -> String {
    let of = |wanted: Turn| swap.zones.iter().filter(move |(_, turn)| *turn == wanted).map(|(zone, _)| zone.name());
    let turned = [(Turn::Thinner, "thinner"), (Turn::Thicker, "thicker")].map(|(turn, word)| {
        let zones = of(turn).join(" and ");
        if zones.is_empty() { String::new() } else { format!("{word} {zones}") }
    });
    turned.iter().filter(|words| !words.is_empty()).join(", ")
}

fn computed(card: &Card<'_>, next: &Next<'_>) -> String {
    let name = if next.to.id == card.model.id { "this one".to_owned() } else { one_line(&next.to.name) };
    format!("else {name}, {}, fits {}", size(Some(&next.size)), of_hundred(next.fits))
}

fn shops(next: &ShopsNext<'_>, is_rare: bool, catalogue: &Catalogue) -> String {
    let fits = match next.fits {
        Some(fits) if !is_rare => format!(", fits {}", of_hundred(fits)),
        _ => String::new(),
    };
    format!("shop's rule: {}{fits}", rule(name(next.edge, catalogue), next.edge))
}

/// How people call the model that a rule leads to.
fn name<'n>(edge: &'n Edge, catalogue: &'n Catalogue) -> &'n str {
    catalogue.model(edge.to.as_str()).map_or(edge.to.as_str(), |model| &model.name)
}
