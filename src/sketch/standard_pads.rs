//! Standard pads of a size that nobody gave.

use super::PadSource;
use crate::catalogue::Catalogue;
use crate::fit::{PadSet, typical_pads};
use crate::profile::{Kind, Model, Size};
use itertools::Itertools;

/// The pads of the model's size with the nearest centre; without a model, the medians over the sizes of the range, of
/// this type where the shop has one of it. A zone that more than half of the sizes lack stays without a pad.
#[must_use]
pub fn standard_pads<'a>(
    catalogue: &'a Catalogue,
    like: Option<&'a Model>,
    kind: Option<Kind>,
    centre: f64,
) -> (PadSet, PadSource<'a>) {
    let distance = |size: &&Size| (size.centre() - centre).abs();
    let nearest = like.and_then(|model| {
        let sizes = model.sizes().map(|(_, size)| size);
        let nearest = sizes.min_by(|a, b| distance(a).total_cmp(&distance(b)));
        nearest.map(|size| (size.standard, PadSource::Like(model, size)))
    });
    nearest.unwrap_or_else(|| of_range(catalogue, kind))
}

fn of_range(catalogue: &Catalogue, kind: Option<Kind>) -> (PadSet, PadSource<'_>) {
    let is_there = kind.is_some_and(|kind| catalogue.models().iter().any(|model| model.kind == kind));
    let kind = kind.filter(|_| is_there);
    let models = catalogue.models().iter().filter(|model| kind.is_none_or(|kind| model.kind == kind));
    let sizes = models.flat_map(Model::sizes).map(|(_, size)| size).collect_vec();
    (typical_pads(sizes.iter().copied()), PadSource::Range(sizes.len(), kind))
}
