//! A helmet that can be sent: a model in a size with one pad set, which the shop mounts beforehand. Nobody swaps pads at
//! home, so it fits a head or it doesn't.

use crate::fit::{Candidate, Good, PadSet};

/// A model in a size with one pad set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Parcel {
    /// Which candidate.
    pub(super) candidate: usize,
    /// Which choice of pads on each axis.
    pub(super) options: [usize; 3],
}

impl Parcel {
    /// Whether it fits a head for which these choices are good.
    pub(super) fn fits(&self, good: Good) -> bool {
        good.iter().zip(self.options).all(|(good, option)| good >> option & 1 == 1)
    }

    /// Whether it fits such a head, and the standard pads in its place would not.
    pub(super) fn is_needed(&self, good: Good) -> bool {
        // The standard pads are the first choice on each axis.
        let standard = Self { options: [0; 3], ..*self };
        self.fits(good) && !standard.fits(good)
    }

    /// The pads in it.
    pub(super) fn pads(&self, candidate: &Candidate<'_>) -> PadSet {
        let mut pads = candidate.size.standard;
        for (table, option) in candidate.axes.iter().zip(self.options) {
            for (zone, mm) in table.iter().flat_map(|table| &table.options[option].pads) {
                *pads.get_mut(*zone) = Some(*mm);
            }
        }
        pads
    }

    /// Minutes to mount them.
    pub(super) fn minutes(&self, candidate: &Candidate<'_>) -> f64 {
        let chosen = candidate.axes.iter().zip(self.options);
        chosen.filter_map(|(table, option)| table.as_ref().map(|table| table.options[option].minutes)).sum()
    }
}
