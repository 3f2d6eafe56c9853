//! The parts of a model with their places.

use super::Case;
use crate::profile::{Model, Pad, Place, Placed, Shell, Size};

/// A shell with its place.
#[derive(Clone)]
pub(super) struct PlacedShell<'m> {
    pub(super) value: &'m Shell,
    pub(super) place: Place,
}

/// A size with its place.
#[derive(Clone)]
pub(super) struct PlacedSize<'m> {
    pub(super) value: &'m Size,
    pub(super) place: Place,
}

pub(super) fn shells(model: &Placed<Model>) -> impl Iterator<Item = PlacedShell<'_>> {
    let list = model.place.key("shells");
    model.value.shells.iter().enumerate().map(move |(at, value)| PlacedShell { value, place: list.entry(at) })
}

/// The sizes of a model in the order of its file.
pub(super) fn sizes(model: &Placed<Model>) -> impl Iterator<Item = PlacedSize<'_>> {
    shells(model).flat_map(|shell| shell.sizes().collect::<Vec<_>>())
}

/// The sizes of a model from the smallest label to the largest; none where one of the labels can't be trusted, because
/// its neighbours would look odd without it.
pub(super) fn ladder<'a>(case: &Case<'_>, model: &'a Placed<Model>) -> Vec<PlacedSize<'a>> {
    let is_sound = |size: &PlacedSize<'_>| case.look.is_sound(&size.place.key("circumference_cm"));
    let mut ladder: Vec<_> = sizes(model).collect();
    if !ladder.iter().all(is_sound) {
        return Vec::new();
    }
    ladder.sort_by(|a, b| a.value.centre().total_cmp(&b.value.centre()));
    ladder
}

impl<'m> PlacedShell<'m> {
    pub(super) fn sizes(&self) -> impl Iterator<Item = PlacedSize<'m>> + use<'m> {
        let list = self.place.key("sizes");
        self.value.sizes.iter().enumerate().map(move |(at, value)| PlacedSize { value, place: list.entry(at) })
    }

    pub(super) fn pads(&self) -> impl Iterator<Item = (&'m Pad, Place)> + use<'m> {
        let list = self.place.key("pads");
        self.value.pads.iter().enumerate().map(move |(at, pad)| (pad, list.entry(at)))
    }
}

impl Size {
    /// The label as profiles write it: `57-58 cm`.
    pub(super) fn range(&self) -> String {
        let (from, to) = self.circumference;
        format!("{}-{} cm", from / 10.0, to / 10.0)
    }
}
