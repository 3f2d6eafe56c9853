//! What the standard pads of a size usually are.

use super::PadSet;
use crate::profile::{ByZone, Size};
use itertools::Itertools;

/// The median standard pad of each zone over some sizes, in the half millimetres that pads come in (common practice, no
/// source). A zone that more than half of the sizes lack stays without a pad.
pub fn typical_pads<'a>(sizes: impl IntoIterator<Item = &'a Size>) -> PadSet {
    let sizes = sizes.into_iter().collect_vec();
    ByZone::from_fn(|zone| {
        let known = sizes.iter().filter_map(|size| *size.standard.get(zone)).sorted_by(f64::total_cmp).collect_vec();
        (2 * known.len() >= sizes.len()).then(|| median(&known)).flatten()
    })
}

/// The middle value, rounded to half millimetres.
fn median(sorted: &[f64]) -> Option<f64> {
    let last = sorted.len().checked_sub(1)?;
    let middle = f64::midpoint(sorted[last / 2], sorted[last.div_ceil(2)]);
    Some((2.0 * middle).round() / 2.0)
}
