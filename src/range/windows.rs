//! What every size fits, as boxes: from and to on each axis, for a database.

use super::room::{Clearance, Pads, Room, Span};
use crate::fit::{Candidate, PadSet, changed, pad_sets, price, swap_minutes};
use crate::profile::{FitRules, Zone};
use crate::unit::Money;
use itertools::Itertools;

/// A box of heads that a size fits: all whose length, breadth and face width (as [`super::taken`] has them) lie in it.
#[derive(Debug, Clone, PartialEq)]
pub struct Window<'a> {
    /// The model and the size.
    pub candidate: &'a Candidate<'a>,
    /// With which pads.
    pub pads: WindowPads,
    /// Length, breadth and face width.
    pub spans: [Span; 3],
}

/// The pads that a window is for.
#[derive(Debug, Clone, PartialEq)]
pub enum WindowPads {
    /// Those that the helmet comes with.
    Standard,
    /// Some pads on offer. A size has as many of these windows as it takes, and no head lies in two of them.
    OnOffer,
    /// One set that isn't the standard one.
    Set {
        /// What is swapped, mm by zone.
        swapped: Vec<(Zone, f64)>,
        /// Minutes that the swap takes.
        minutes: f64,
        /// The least that the pads cost that are swapped in.
        price: Money,
    },
}

/// For every size the window of its standard pads, then those of any pads on offer.
#[must_use]
pub fn size_windows<'a>(candidates: &'a [Candidate<'a>], rules: &FitRules) -> Vec<Window<'a>> {
    let of = |candidate: &'a Candidate<'a>, pads, room: &Room| windows(candidate, pads, room);
    let both = candidates.iter().flat_map(|candidate| {
        let standard = of(candidate, WindowPads::Standard, &Room::of(candidate, Pads::Standard, rules));
        standard.into_iter().chain(of(candidate, WindowPads::OnOffer, &Room::of(candidate, Pads::OnOffer, rules)))
    });
    both.collect()
}

/// For every size the window of every pad set on offer, the standard set first.
#[must_use]
pub fn set_windows<'a>(candidates: &'a [Candidate<'a>], rules: &FitRules) -> Vec<Window<'a>> {
    let sets = candidates.iter().flat_map(|candidate| {
        pad_sets(candidate.shell, candidate.size).into_iter().flat_map(move |set| {
            let with_set = candidate.clone().mounted(&set, rules, 0.0);
            let room = Clearance::of(&with_set, Pads::Standard, rules).room(candidate.cavity(rules));
            windows(candidate, WindowPads::of(&set, candidate), &room)
        })
    });
    sets.collect()
}

/// A room as boxes that don't touch.
fn windows<'a>(candidate: &'a Candidate<'a>, pads: WindowPads, room: &Room) -> Vec<Window<'a>> {
    let [lengths, breadths, widths] = &room.axes;
    let boxes = lengths.iter().cartesian_product(breadths).cartesian_product(widths);
    boxes
        .map(|((length, breadth), width)| Window { candidate, pads: pads.clone(), spans: [*length, *breadth, *width] })
        .collect()
}

impl WindowPads {
    fn of(set: &PadSet, candidate: &Candidate<'_>) -> Self {
        let swapped = changed(&candidate.size.standard, set).collect_vec();
        if swapped.is_empty() {
            return Self::Standard;
        }
        let minutes = swap_minutes(set, candidate.model, candidate.size);
        Self::Set { swapped, minutes, price: price(set, candidate.shell, candidate.size) }
    }
}
