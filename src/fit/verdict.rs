//! One head against one (model, size), the profile taken at its word: every pad set judged, best first.

use super::Candidate;
use super::interior::foam;
use super::padset::{PadSet, pad_sets, price, swap_minutes, swapped};
use crate::head::EffectiveHead;
use crate::profile::{Axis, Bands, FitRules, Reason};
use crate::unit::Money;

/// How the foam on an axis feels.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[expect(missing_docs, reason = "plain words")]
pub enum Band {
    Loose,
    Light,
    Good,
    Tight,
    HotSpot,
}

/// One head in one (model, size).
#[derive(Debug, Clone, PartialEq)]
pub struct Verdict {
    /// All pad sets: those that fit first, the most even first, then fewest swaps, then cheapest; behind them the
    /// others, the least bad first. Never empty.
    pub sets: Vec<SetVerdict>,
}

/// One head in one pad set.
#[derive(Debug, Clone, PartialEq)]
pub struct SetVerdict {
    /// The set.
    pub pads: PadSet,
    /// Strain by axis (length, breadth, face width); `None` for an axis without pads.
    pub strain: [Option<f64>; 3],
    /// Band by axis.
    pub band: [Option<Band>; 3],
    /// How far the strains lie outside the good bands, added up; 0 is a fit.
    pub excess: f64,
    /// Squared distances of the strains from the ideal, added up.
    pub unevenness: f64,
    /// Zones swapped.
    pub swaps: usize,
    /// Minutes for the swaps.
    pub minutes: f64,
    /// Price of the pads that are not standard.
    pub price: Money,
    /// Why it doesn't fit; `None` where it does.
    pub reason: Option<Reason>,
}

impl Verdict {
    /// The best set.
    #[must_use]
    pub fn best(&self) -> &SetVerdict {
        &self.sets[0]
    }
}

impl SetVerdict {
    /// Whether every axis is good.
    #[must_use]
    pub fn fits(&self) -> bool {
        self.reason.is_none()
    }
}

/// Judges one set of pads, whichever they are, in a candidate on a head.
#[must_use]
pub fn judged(candidate: &Candidate<'_>, pads: PadSet, head: EffectiveHead, rules: &FitRules) -> SetVerdict {
    judge(candidate, pads, room(candidate, head, rules), rules)
}

/// Judges every pad set of a candidate on a head.
#[must_use]
pub fn verdict(candidate: &Candidate<'_>, head: EffectiveHead, rules: &FitRules) -> Verdict {
    let room = room(candidate, head, rules);
    let mut sets: Vec<_> =
        pad_sets(candidate.shell, candidate.size).into_iter().map(|pads| judge(candidate, pads, room, rules)).collect();
    sets.sort_by(|a, b| {
        let strain = a.excess.total_cmp(&b.excess).then(a.unevenness.total_cmp(&b.unevenness));
        strain.then(a.swaps.cmp(&b.swaps)).then(a.price.cmp(&b.price))
    });
    Verdict { sets }
}

/// What the head leaves to the foam on each axis, mm.
fn room(candidate: &Candidate<'_>, head: EffectiveHead, rules: &FitRules) -> [f64; 3] {
    let taken = [head.length, head.breadth, head.face_width];
    let cavity = candidate.cavity(rules);
    [0, 1, 2].map(|axis| cavity[axis] - taken[axis])
}

fn judge(candidate: &Candidate<'_>, pads: PadSet, room: [f64; 3], rules: &FitRules) -> SetVerdict {
    let mut strain = [None; 3];
    let mut band = [None; 3];
    let mut direction = [0; 3];
    let (mut excess, mut unevenness) = (0.0, 0.0);
    for (k, axis) in Axis::ALL.into_iter().enumerate() {
        let foam = foam(&pads, axis);
        if foam <= 0.0 {
            continue;
        }
        let bands = rules.bands(axis);
        let value = 1.0 - room[k] / foam;
        let outside = bands.excess(value);
        strain[k] = Some(value);
        band[k] = Some(Band::of(value, bands));
        direction[k] = if outside > 0.0 { 1 } else { -i8::from(outside < 0.0) };
        excess += outside.abs();
        unevenness += (value - rules.ideal).powi(2);
    }
    SetVerdict {
        swaps: swapped(&pads, candidate.size).count(),
        minutes: swap_minutes(&pads, candidate.model, candidate.size),
        price: price(&pads, candidate.shell, candidate.size),
        reason: Reason::from_direction(direction),
        pads,
        strain,
        band,
        excess,
        unevenness,
    }
}

impl Band {
    /// The band of a strain.
    #[must_use]
    pub fn of(strain: f64, bands: Bands) -> Self {
        match strain {
            s if s < bands.loose_below => Self::Loose,
            s if s < bands.light_below => Self::Light,
            s if s <= bands.tight_above => Self::Good,
            s if s <= bands.hot_spot_above => Self::Tight,
            _ => Self::HotSpot,
        }
    }

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Loose => "loose",
            Self::Light => "light",
            Self::Good => "good",
            Self::Tight => "tight",
            Self::HotSpot => "hot spot",
        }
    }
}
