//! Where on the grid a close look is worth its time.

use super::evidence::Witness;
use super::grid::{Grid, Point};
use crate::catalogue::Catalogue;
use std::collections::BTreeMap;

/// How many columns and rows lie between the points of the first look.
const STRIDES: (usize, usize) = (6, 3);

/// A point whose log density lies so far below the highest one counts for nothing: its share is below a millionth.
const NEGLIGIBLE: f64 = 14.0;

/// How far below it all points of the first look around a point may lie, before nothing between them can matter: far
/// more, because a density rises and falls between two of them.
const HOPELESS: f64 = 40.0;

/// Leaves out the points that can't matter. No report has a probability above 1, so no point's density rises above
/// its prior: that holds exactly. Where many customers speak, a first look at every eighteenth point says much more.
pub(super) fn outlook(grid: &Grid, witnesses: &[Witness], catalogue: &Catalogue) -> Grid {
    let (columns, rows) = STRIDES;
    let first = grid.only(|point| point.column % columns == 0 && point.row % rows == 0);
    let height = |point: &Point| {
        let chances = witnesses.iter().map(|witness| witness.chance(*point, catalogue));
        point.log_prior + chances.map(f64::ln).sum::<f64>()
    };
    let seen: BTreeMap<(usize, usize), f64> =
        first.points().iter().map(|point| ((point.column / columns, point.row / rows), height(point))).collect();
    let highest = seen.values().copied().fold(f64::NEG_INFINITY, f64::max);
    let around = |point: &Point| {
        let (column, row) = (point.column / columns, point.row / rows);
        [(column, row), (column + 1, row), (column, row + 1), (column + 1, row + 1)]
    };
    grid.only(|point| {
        let is_possible = point.log_prior >= highest - NEGLIGIBLE;
        is_possible && around(point).iter().filter_map(|at| seen.get(at)).any(|height| *height >= highest - HOPELESS)
    })
}
