//! What is said of one head in one model, on every kind of page.

use crate::catalogue::Catalogue;
use crate::fit::{Band, Inspection, PadSet, SetVerdict, ZoneCut, zone_cuts};
use crate::profile::{Axis, Trade, Zone};
use crate::render::text::{mm, percent};
use itertools::Itertools;

/// The head that the size is made for.
pub(super) fn made_for(catalogue: &Catalogue, inspection: &Inspection<'_>) -> String {
    let nominal = inspection.candidate.nominal;
    let [length, breadth, face_width] = nominal.dimensions(catalogue.shop.fit.outline);
    format!(
        "circumference {:.0}, length {length:.1}, breadth {breadth:.1}, face width {face_width:.1} mm; shape index {:.1} ({})",
        nominal.circumference,
        nominal.shape_index,
        catalogue.shop.words.word(nominal.shape_index)
    )
}

/// Whether the expected head fits.
pub(super) fn verdict(inspection: &Inspection<'_>) -> String {
    match inspection.verdict.best().reason {
        None => "the expected head fits, the profile taken at its word".to_owned(),
        Some(reason) => format!("the expected head does not fit even with the best pads: {}", reason.words()),
    }
}

/// How often the size fits.
pub(super) fn chance(inspection: &Inspection<'_>) -> String {
    format!(
        "{} with the pads on offer, errors of measures and profile included (sampling error {:.1} points)",
        percent(inspection.fit.value),
        inspection.fit.error * 100.0 + 0.05
    )
}

/// A zone of the expected head with the best pads.
pub(super) struct ZoneRow {
    pub(super) zone: Zone,
    pub(super) is_good: bool,
    /// Pad, strain and band.
    pub(super) felt: [String; 3],
    /// How often the axis is too loose, good and too tight whatever the pads.
    pub(super) classes: [f64; 3],
}

/// The zones that have pads and a measure.
pub(super) fn zone_rows(catalogue: &Catalogue, inspection: &Inspection<'_>) -> Vec<ZoneRow> {
    let row = |cut: &ZoneCut| {
        let axis = Axis::ALL.iter().position(|axis| cut.zone.axis() == Some(*axis))?;
        let (pad, squeeze) = (cut.pad?, cut.squeeze?);
        Some(ZoneRow {
            zone: cut.zone,
            is_good: squeeze.band == Band::Good,
            felt: [mm(pad), strain(squeeze.strain), squeeze.band.name().to_owned()],
            classes: inspection.classes[axis].map(|quote| quote.value),
        })
    };
    zone_cuts(inspection.verdict.best(), &catalogue.shop.fit).iter().filter_map(row).collect()
}

/// A strain in two digits; foam can't be squeezed to less than nothing: such a head doesn't go in.
pub(super) fn strain(strain: f64) -> String {
    if strain < 1.0 { format!("{strain:.2}") } else { ">1".to_owned() }
}

/// What the rows of zones leave unsaid.
pub(super) const ZONES: &str =
    "Brow and rear share one strain: the foam front to back. The crown shows only on the head.";

/// Pad sets that are listed behind the best.
const OTHERS: usize = 6;

/// The pad sets that are worth a look, each with its rank, and how many are left out. The standard pads always are, however
/// far behind.
pub(super) fn shown_sets<'i>(inspection: &'i Inspection<'_>) -> (Vec<(usize, &'i SetVerdict)>, usize) {
    let sets = &inspection.verdict.sets;
    let is_shown = |(at, set): &(usize, &SetVerdict)| *at <= OTHERS || set.swaps == 0;
    let shown = sets.iter().enumerate().filter(is_shown).map(|(at, set)| (at + 1, set)).collect_vec();
    let left = sets.len() - shown.len();
    (shown, left)
}

/// Zones in which a set differs from the standard pads.
pub(super) fn named(standard: &PadSet, set: &PadSet) -> String {
    let mut changed = set.iter().filter_map(|(zone, pad)| {
        let (pad, standard) = ((*pad)?, (*standard.get(zone))?);
        ((pad - standard).abs() > 1e-9).then(|| format!("{} {} mm", zone.name(), mm(pad)))
    });
    let changed = changed.join(", ");
    if changed.is_empty() { "standard pads".to_owned() } else { changed }
}

/// Why a set stands where it stands.
pub(super) fn why(set: &SetVerdict, best: &SetVerdict) -> String {
    match set.reason {
        Some(reason) => format!("does not fit: {}", reason.words()),
        None if std::ptr::eq(set, best) => "fits, the most even".to_owned(),
        None => format!("fits, less even ({:.4} against {:.4})", set.unevenness, best.unevenness),
    }
}

/// What is said below the sets.
pub(super) fn below_sets(inspection: &Inspection<'_>) -> Option<&'static str> {
    if inspection.verdict.sets.len() == 1 {
        Some("this shell offers no other pads for this size")
    } else if matches!(inspection.candidate.model.trade, Trade::Exchange { .. }) {
        Some("the standard pads go back to the maker in exchange")
    } else {
        None
    }
}
