//! One axis of a (model, size): every pad choice on it, and what becomes of a head by the room it leaves.

use super::PadSet;
use super::interior::foam;
use crate::profile::{Axis, Bands, Model, Shell, Size, Zone};
use crate::supply::on_offer;
use itertools::Itertools;

/// One choice of pads for the zones of an axis.
#[derive(Debug, Clone, PartialEq)]
pub struct AxisOption {
    /// Thickness by zone, mm.
    pub pads: Vec<(Zone, f64)>,
    /// Total foam on the axis, mm.
    pub foam: f64,
    /// Minutes to swap from the standard pads.
    pub minutes: f64,
    /// Zones that are swapped.
    pub swaps: u32,
}

/// What becomes of heads that leave a stretch of rooms.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cell {
    /// 0 where some choice is good; +1 too tight, −1 too loose even with the best choice.
    pub class: i8,
    /// The choice that such a head ends with: good with the fewest minutes from standard, else the least bad.
    pub option: usize,
    /// Bit k: choice k is good.
    pub good: u64,
}

/// The axis as a step function of the room y that a head leaves, mm.
#[derive(Debug, Clone, PartialEq)]
pub struct AxisTable {
    /// The choices; the standard pads first.
    pub options: Vec<AxisOption>,
    /// Rooms at which something changes, ascending.
    pub breaks: Vec<f64>,
    /// One more than breaks: `cells[k]` holds from `breaks[k - 1]` up to `breaks[k]`.
    pub cells: Vec<Cell>,
}

/// As many choices as [`Cell::good`] has bits; profiles are held to fewer.
const MOST_OPTIONS: usize = 64;

impl AxisTable {
    /// All choices that the shell offers for this size. `None` for a helmet without pads on the axis.
    #[must_use]
    pub fn of(axis: Axis, model: &Model, shell: &Shell, size: &Size, bands: Bands) -> Option<Self> {
        Some(Self::with(options(axis, model, shell, size)?, bands))
    }

    /// These pads and no choice. `None` for a set without pads on the axis.
    #[must_use]
    pub fn fixed(axis: Axis, pads: &PadSet, bands: Bands) -> Option<Self> {
        let pad = |zone: &Zone| pads.get(*zone).map(|mm| (*zone, mm));
        let option = AxisOption {
            pads: axis.zones().iter().map(pad).collect::<Option<_>>()?,
            foam: foam(pads, axis),
            minutes: 0.0,
            swaps: 0,
        };
        Some(Self::with(vec![option], bands))
    }

    fn with(options: Vec<AxisOption>, bands: Bands) -> Self {
        let windows = options.iter().map(|option| bands.window(option.foam)).sorted_by(|a, b| a.0.total_cmp(&b.0));
        let windows = windows.collect_vec();
        let gaps = windows.iter().tuple_windows().filter(|(thin, thick)| thin.1 < thick.0);
        let breaks = windows
            .iter()
            .flat_map(|window| [window.0, window.1])
            .chain(gaps.map(|(thin, thick)| bands.turn(*thin, *thick)))
            .sorted_by(f64::total_cmp)
            .dedup()
            .collect_vec();
        let cells = middles(&breaks).map(|room| cell(&options, bands, room)).collect();
        Self { options, breaks, cells }
    }
}

impl Bands {
    /// The rooms in which so much foam is good, mm: from tight to light.
    #[must_use]
    pub fn window(self, foam: f64) -> (f64, f64) {
        ((1.0 - self.tight_above) * foam, (1.0 - self.light_below) * foam)
    }

    /// The room between two windows at which the thinner foam is as much too loose as the thicker is too tight:
    /// from there on the trouble has the other name.
    fn turn(self, thin: (f64, f64), thick: (f64, f64)) -> f64 {
        let (thin, thick) = (thin.1 / (1.0 - self.light_below), thick.0 / (1.0 - self.tight_above));
        (2.0 - self.tight_above - self.light_below) / (1.0 / thin + 1.0 / thick)
    }
}

fn options(axis: Axis, model: &Model, shell: &Shell, size: &Size) -> Option<Vec<AxisOption>> {
    let choices: Option<Vec<Vec<f64>>> = axis
        .zones()
        .iter()
        .map(|zone| size.standard.get(*zone).map(|mm| thicknesses(*zone, mm, shell, size)))
        .collect();
    let standard = foam(&size.standard, axis);
    let combined = choices?.into_iter().multi_cartesian_product().map(|thickness| {
        let pads = axis.zones().iter().copied().zip(thickness).collect_vec();
        let swapped = |(zone, mm): &&(Zone, f64)| size.standard.get(*zone).is_none_or(|std| (std - mm).abs() > 1e-9);
        AxisOption {
            foam: axis.pads_per_zone() * pads.iter().map(|(_, mm)| mm).sum::<f64>(),
            minutes: pads.iter().filter(swapped).map(|(zone, _)| *model.swap_minutes.get(*zone)).sum(),
            swaps: u32::try_from(pads.iter().filter(swapped).count()).unwrap_or(u32::MAX),
            pads,
        }
    });
    // The same foam by fewer minutes is always as good: one choice for each total is enough.
    let mut options = combined
        .sorted_by(|a, b| a.foam.total_cmp(&b.foam).then(a.minutes.total_cmp(&b.minutes)).then(a.swaps.cmp(&b.swaps)))
        .dedup_by(|a, b| (a.foam - b.foam).abs() < 1e-9)
        .collect_vec();
    options.sort_by_key(|option| (option.swaps > 0 || (option.foam - standard).abs() > 1e-9, option.swaps));
    options.truncate(MOST_OPTIONS);
    Some(options)
}

/// The standard thickness first, then the others on offer for the size, ascending.
pub(super) fn thicknesses(zone: Zone, standard: f64, shell: &Shell, size: &Size) -> Vec<f64> {
    let others = on_offer(shell, size, zone).into_iter().filter(|mm| (mm - standard).abs() > 1e-9);
    std::iter::once(standard).chain(others).collect()
}

/// A room in the middle of each cell, the open ones at both ends included.
fn middles(breaks: &[f64]) -> impl Iterator<Item = f64> {
    let first = breaks.first().map(|edge| edge / 2.0);
    let last = breaks.last().map(|edge| edge + 1.0);
    first.into_iter().chain(breaks.iter().tuple_windows().map(|(a, b)| f64::midpoint(*a, *b))).chain(last)
}

fn cell(options: &[AxisOption], bands: Bands, room: f64) -> Cell {
    let excess = |option: &AxisOption| bands.excess(1.0 - room / option.foam);
    let good = options.iter().enumerate().filter(|(_, option)| excess(option).abs() < f64::EPSILON);
    let mask = good.clone().fold(0, |mask, (k, _)| mask | 1 << k);
    let quickest = good.min_by(|(_, a), (_, b)| a.minutes.total_cmp(&b.minutes).then(a.swaps.cmp(&b.swaps)));
    if let Some((option, _)) = quickest {
        return Cell { class: 0, option, good: mask };
    }
    let nearest = options.iter().enumerate().min_by(|(_, a), (_, b)| excess(a).abs().total_cmp(&excess(b).abs()));
    let (option, class) = nearest.map_or((0, 1), |(k, option)| (k, if excess(option) > 0.0 { 1 } else { -1 }));
    Cell { class, option, good: 0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    const BANDS: Bands = Bands { loose_below: 0.1, light_below: 0.2, tight_above: 0.5, hot_spot_above: 0.65 };

    fn option(foam: f64, minutes: f64) -> AxisOption {
        AxisOption { pads: Vec::new(), foam, minutes, swaps: u32::from(minutes > 0.0) }
    }

    #[test]
    fn a_head_between_two_windows_is_named_by_the_nearer_one() {
        // Windows of rooms: 5 to 8 for 10 mm of foam, 15 to 24 for 30 mm.
        let options = [option(10.0, 0.0), option(30.0, 2.0)];
        assert_eq!(cell(&options, BANDS, 6.0).class, 0);
        assert_eq!(cell(&options, BANDS, 20.0).option, 1);
        assert_eq!(cell(&options, BANDS, 8.5).class, -1, "just too loose for the thin pads");
        assert_eq!(cell(&options, BANDS, 14.5).class, 1, "just too tight for the thick pads");
    }

    #[test]
    fn the_standard_pads_stay_where_they_are_good() {
        let options = [option(24.0, 0.0), option(25.0, 2.0)];
        let cell = cell(&options, BANDS, 16.0);
        assert_eq!((cell.option, cell.good), (0, 0b11));
    }
}
