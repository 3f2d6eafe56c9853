//! What each zone's pads are worth: who goes without if there are none.

use super::Figure;
use super::kits::{fitted, with_pads};
use crate::head::Particles;
use crate::profile::Zone;
use crate::range::count::tally;
use crate::range::shelf::{Column, Shelf, taken};
use crate::range::spread::spreads;
use crate::range::tally::{Change, ColumnSet, Pattern, Tally};
use itertools::Itertools;

/// What would be lost without any pads but the standard ones in a zone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ZoneLoss {
    /// The zone.
    pub zone: Zone,
    /// Customers who then fit nothing, a share; counted head by head.
    pub lost: Figure,
}

/// Each zone on its own; zones in which nothing is on offer are left out.
pub(super) fn zones(shelf: &Shelf<'_>, heads: &Particles, seed: u64) -> Vec<ZoneLoss> {
    let has_pads = |zone: &Zone| {
        let shells = shelf.columns.iter().flat_map(|column| &column.model.shells);
        zone.axis().is_some() && shells.flat_map(|shell| &shell.pads).any(|pad| pad.zone == *zone)
    };
    let zones = Zone::ALL.into_iter().filter(has_pads).collect_vec();
    let models = shelf.columns.len();
    let without = zones.iter().flat_map(|zone| shelf.columns.iter().map(|column| without(column, *zone, shelf)));
    let beside = Shelf::new(shelf.columns.iter().cloned().chain(without).collect(), shelf.rules);
    let all: ColumnSet = (0..models).collect();
    let rest = (1..=zones.len()).map(|at| (at * models..(at + 1) * models).collect::<ColumnSet>()).collect_vec();
    let fits = |pattern: Pattern<'_>, columns: &ColumnSet| pattern.on_offer.has_any(columns.columns());
    let lost = |tally: &Tally, rest: &ColumnSet| -> Change {
        let change = tally.change(|pattern| fits(pattern, &all), |pattern| fits(pattern, rest));
        // What is lost, as a share above 0.
        Change { won: change.lost, lost: change.won, ..change }
    };
    let counted = tally(&beside, &taken(heads, beside.rules.outline), None);
    let spreads =
        spreads(&beside, heads, seed, |tally| rest.iter().map(|rest| lost(tally, rest).quote().value).collect());
    let figures = rest.iter().zip(spreads).map(|(rest, spread)| Figure { quote: lost(&counted, rest).quote(), spread });
    zones.into_iter().zip(figures).map(|(zone, lost)| ZoneLoss { zone, lost }).collect()
}

fn without<'a>(column: &Column<'a>, zone: Zone, shelf: &Shelf<'a>) -> Column<'a> {
    let shells = column.model.shells.iter().map(|shell| with_pads(shell, |pad, _| pad.zone != zone)).collect_vec();
    let sizes = column.candidates.iter();
    let sizes = sizes.map(|candidate| fitted(candidate, &shells[candidate.shell_index], &shelf.rules));
    Column { model: column.model, candidates: sizes.collect() }
}
