//! The pads of a model, shell by shell.

use super::{Column, Part, Section, Table};
use crate::card::{Card, PadChoice, ShellPads, ZonePads};
use crate::render::text::mm;
use crate::unit::plain;
use itertools::Itertools;

/// Every zone with what it takes.
pub(super) fn pads(card: &Card<'_>, currency: &str) -> Section {
    let mut words = "mm; (M): what M comes with.".to_owned();
    if card.model.shells.len() > 1 {
        words += " Pads of one shell never go into another.";
    }
    if zones(card).any(|zone| zone.choices.iter().any(|choice| choice.is_in_pack_only)) {
        words += " What is sold in packs only costs the pack.";
    }
    let columns = vec![
        Column::words("shell"),
        Column::words("zone"),
        Column::words("pads"),
        Column::numbers("minutes"),
        Column::numbers(currency),
    ];
    let rows = card.pads.iter().flat_map(|shell| shell.zones.iter().map(|zone| row(shell, zone)));
    Section { title: "Pads", parts: vec![Part::Words(words), Part::Table(Table::plain(columns, rows))] }
}

fn zones<'c>(card: &'c Card<'_>) -> impl Iterator<Item = &'c ZonePads<'c>> {
    card.pads.iter().flat_map(|shell| &shell.zones)
}

fn row(shell: &ShellPads<'_>, zone: &ZonePads<'_>) -> Vec<String> {
    let choices = zone.choices.iter().map(|choice| words(choice, shell)).join(", ");
    let [minutes, price] = if zone.is_tunable {
        let prices = zone.choices.iter().filter_map(|choice| choice.price).minmax().into_option();
        let price = prices.map_or_else(String::new, |(least, most)| [least, most].iter().dedup().join(" to "));
        [plain(zone.minutes), price]
    } else {
        ["fixed".to_owned(), "-".to_owned()]
    };
    vec![shell.shell.id.to_string(), zone.zone.name().to_owned(), choices, minutes, price]
}

/// A thickness, with the sizes that come with it, and those that it is for where that isn't all of them.
fn words(choice: &PadChoice<'_>, shell: &ShellPads<'_>) -> String {
    let mut words = mm(choice.thickness);
    if !choice.standard_in.is_empty() {
        words += &format!(" ({})", choice.standard_in.iter().join(", "));
    }
    let is_for_some = !choice.on_offer_for.is_empty() && choice.on_offer_for.len() < shell.sizes.len();
    if is_for_some && choice.on_offer_for != choice.standard_in {
        words += &format!(" for {} only", choice.on_offer_for.iter().join(" and "));
    }
    words
}
