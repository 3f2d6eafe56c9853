//! The pads of a model, shell by shell.

use super::{Part, Section};
use crate::card::{Card, PadChoice, ShellPads, ZonePads};
use crate::profile::Zone;
use crate::render::table::{Column, Table};
use crate::render::text::mm;
use crate::unit::plain;
use itertools::Itertools;

/// Every shell with what each of its zones takes.
pub(super) fn pads(card: &Card<'_>, currency: &str) -> Section {
    let mut words = "In mm; (M): what M comes with.".to_owned();
    if card.model.shells.len() > 1 {
        words += " Pads of one shell never go into another.";
    }
    let mut choices = card.pads.iter().flat_map(|shell| &shell.zones).flat_map(|zone| &zone.choices);
    if choices.any(|choice| choice.is_in_pack_only) {
        words += " A pad that is sold in packs only costs the pack.";
    }
    let zones = Zone::ALL.into_iter().filter(|zone| of_zone(card, *zone).next().is_some()).collect_vec();
    let columns = std::iter::once(Column::words("shell")).chain(zones.iter().map(|zone| Column::words(zone.name())));
    let shells = card.pads.iter().map(|shell| row(shell.shell.id.as_str(), &zones, |zone| in_shell(shell, zone)));
    let minutes = row("minutes to swap", &zones, |zone| told(tunable(card, zone).map(|zone| plain(zone.minutes))));
    let prices = row(&format!("{currency} for one"), &zones, |zone| told(prices(card, zone)));
    let is_tunable = zones.iter().any(|zone| tunable(card, *zone).next().is_some());
    let swaps = if is_tunable { vec![minutes, prices] } else { Vec::new() };
    let table = Table::plain(columns.collect(), shells.chain(swaps));
    Section { key: "pads", title: "Pads", parts: vec![Part::Words(words), Part::Table(table)] }
}

fn row(name: &str, zones: &[Zone], cell: impl Fn(Zone) -> String) -> Vec<String> {
    std::iter::once(name.to_owned()).chain(zones.iter().map(|zone| cell(*zone))).collect()
}

/// A zone in every shell that has a pad there.
fn of_zone<'c>(card: &'c Card<'_>, zone: Zone) -> impl Iterator<Item = &'c ZonePads<'c>> {
    card.pads.iter().flat_map(|shell| &shell.zones).filter(move |known| known.zone == zone)
}

/// The same in every shell in which it takes another pad.
fn tunable<'c>(card: &'c Card<'_>, zone: Zone) -> impl Iterator<Item = &'c ZonePads<'c>> {
    of_zone(card, zone).filter(|zone| zone.is_tunable)
}

fn in_shell(shell: &ShellPads<'_>, zone: Zone) -> String {
    let Some(known) = shell.zones.iter().find(|known| known.zone == zone) else { return "no pad".to_owned() };
    let choices = known.choices.iter().map(|choice| words(choice, shell)).join(", ");
    if known.is_tunable { choices } else { format!("{choices}, fixed") }
}

/// From the cheapest pad to the dearest.
fn prices(card: &Card<'_>, zone: Zone) -> impl Iterator<Item = String> {
    let prices = tunable(card, zone).flat_map(|zone| &zone.choices).filter_map(|choice| choice.price);
    prices.minmax().into_option().map(|(least, most)| [least, most].iter().dedup().join(" to ")).into_iter()
}

/// The first of some words; a dash where there are none.
fn told(mut words: impl Iterator<Item = String>) -> String {
    words.next().unwrap_or_else(|| "-".to_owned())
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
