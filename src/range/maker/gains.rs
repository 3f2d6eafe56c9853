//! Which of the things that a maker doesn't offer would win customers.

use super::missing::{self, Missing};
use crate::catalogue::Catalogue;
use crate::fit::Candidate;
use crate::profile::{Model, Shell, Zone};
use crate::range::design::Rung;
use crate::range::lacking::{Lack, Lacking};
use crate::range::room::{Pads, Room};
use itertools::Itertools;

/// Something missing, with the customers without a helmet of the maker (by their place) whom it would fit.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Found<'a> {
    pub(super) model: &'a Model,
    pub(super) missing: Missing,
    pub(super) won: Vec<usize>,
    /// How many of them choose.
    pub(super) choosing: usize,
}

/// Everything that a model lacks: for each zone of a shell the one thickness that wins most of those who choose, zones
/// that could be tunable, sizes.
pub(super) fn found<'a>(model: &'a Model, ladder: &[Rung], lacking: &Lacking, catalogue: &Catalogue) -> Vec<Found<'a>> {
    let (buying, plausible) = (&catalogue.shop.buying, &catalogue.shop.plausible);
    let pads = model.shells.iter().flat_map(|shell| {
        let near = Near::of(model, shell, lacking, catalogue);
        missing::zones().filter_map(move |zone| near.best(zone)).collect_vec()
    });
    let zones = missing::zones().filter_map(|zone| missing::zone(model, zone, buying, plausible));
    let all = pads.chain(zones).chain(missing::sizes(model, ladder));
    all.map(|missing| {
        let won = won(&missing.added_to(model), &lacking.heads, catalogue);
        let choosing = won.iter().filter(|head| !lacking.heads[**head].judges).count();
        Found { model, missing, won, choosing }
    })
    .filter(|found| !found.won.is_empty())
    .collect()
}

/// The customers whom some size of a model fits, by their place.
pub(super) fn won(model: &Model, heads: &[Lack], catalogue: &Catalogue) -> Vec<usize> {
    let rooms = crate::range::design::rooms(model, catalogue);
    heads.iter().positions(|lack| rooms.iter().any(|room| room.holds(lack.taken))).collect()
}

/// A shell, with the customers who are near each of its sizes: only one axis keeps them out.
struct Near<'n> {
    /// The model with this shell alone.
    model: Model,
    shell: &'n Shell,
    /// By size and axis the heads that fit on the two other axes.
    heads: Vec<[Vec<usize>; 3]>,
    lacking: &'n Lacking,
    catalogue: &'n Catalogue,
}

impl<'n> Near<'n> {
    fn of(model: &Model, shell: &'n Shell, lacking: &'n Lacking, catalogue: &'n Catalogue) -> Self {
        let mut alone = model.clone();
        alone.shells = vec![shell.clone()];
        let near = |room: &Room| {
            let mut heads = [const { Vec::new() }; 3];
            for (place, lack) in lacking.heads.iter().enumerate() {
                let holds = [0, 1, 2].map(|axis| on(room, axis, lack));
                match holds {
                    [false, true, true] => heads[0].push(place),
                    [true, false, true] => heads[1].push(place),
                    [true, true, false] => heads[2].push(place),
                    _ => {}
                }
            }
            heads
        };
        let heads = crate::range::design::rooms(&alone, catalogue).iter().map(near).collect();
        Self { model: alone, shell, heads, lacking, catalogue }
    }

    /// The thickness that wins most of those who choose, the thinnest of equal ones.
    fn best(&self, zone: Zone) -> Option<Missing> {
        let shop = &self.catalogue.shop;
        let mut best: Option<(usize, f64)> = None;
        for thickness in missing::thicknesses(self.shell, zone, &shop.buying, &shop.plausible) {
            let won = self.choosing(zone, thickness);
            if won > best.map_or(0, |(most, _)| most) {
                best = Some((won, thickness));
            }
        }
        best.map(|(_, thickness)| Missing::Pad { shell: self.shell.id.clone(), zone, thickness })
    }

    /// How many of those who choose another thickness wins.
    fn choosing(&self, zone: Zone, thickness: f64) -> usize {
        let missing = Missing::Pad { shell: self.shell.id.clone(), zone, thickness };
        let model = missing.added_to(&self.model);
        let candidates = Candidate::of_models([&model], self.catalogue);
        let axis = zone.axis().map_or(0, |axis| axis as usize);
        let sizes = candidates.iter().zip(&self.heads).flat_map(|(candidate, near)| {
            let room = Room::of(candidate, Pads::OnOffer, &self.catalogue.shop.fit);
            let heads = near[axis].iter().copied();
            heads.filter(|head| on(&room, axis, &self.lacking.heads[*head])).collect_vec()
        });
        sizes.filter(|head| !self.lacking.heads[*head].judges).unique().count()
    }
}

/// Whether a head fits on an axis.
fn on(room: &Room, axis: usize, lack: &Lack) -> bool {
    room.axes[axis].iter().any(|span| span.holds(lack.taken[axis]))
}
