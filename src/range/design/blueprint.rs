//! What a new model may be, and the model that it then is.

use crate::fit::PadSet;
use crate::profile::{
    Attributes, Axis, BuyingRules, ByZone, Interior, Kind, Model, Origin, PAD_MM, Pad, Plausible, Shell, Size, Supply,
    Trade, Zone,
};
use crate::unit::{Id, Money};
use itertools::Itertools;

/// A size as models have it.
#[derive(Debug, Clone, PartialEq)]
pub struct Rung {
    /// Its label.
    pub label: Id,
    /// The labelled range of circumference, mm.
    pub circumference: (f64, f64),
}

/// A new model: the shape of its interior, its sizes, and the axes whose zones have other pads on offer.
#[derive(Debug, Clone, PartialEq)]
pub struct Blueprint {
    /// Shape index of the interior.
    pub shape_index: f64,
    /// Sizes, the smallest first.
    pub sizes: Vec<Rung>,
    /// Whether the zones of length, breadth and face width are tunable.
    pub tunable: [bool; 3],
}

/// What every new model has alike.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Habits {
    /// Standard pads of every size.
    pub(super) pads: PadSet,
    /// Thicknesses on offer for a tunable zone, mm.
    pub(super) choices: ByZone<Vec<f64>>,
}

impl Habits {
    /// Standard pads, and for a tunable zone so many thinner and thicker ones as the shop's rules say, as far as they are
    /// plausible.
    pub(super) fn new(pads: PadSet, rules: &BuyingRules, plausible: &Plausible) -> Self {
        let choices = ByZone::from_fn(|zone| pads.get(zone).map_or_else(Vec::new, |mm| around(mm, rules, plausible)));
        Self { pads, choices }
    }
}

/// The pads of a tunable zone with such a standard pad, ascending, mm.
fn around(standard: f64, rules: &BuyingRules, plausible: &Plausible) -> Vec<f64> {
    let ways = steps(rules.pads_each_way);
    let thickness = (-ways..=ways).map(|step| standard + f64::from(step) * rules.pad_step);
    thickness.filter(|mm| plausible.thickness.contains(mm) && PAD_MM.contains(mm)).collect()
}

/// A small whole number that was written with a point.
#[expect(clippy::cast_possible_truncation, reason = "the bounds of profiles keep it small")]
pub(in crate::range) fn steps(count: f64) -> i32 {
    count.round() as i32
}

impl Blueprint {
    /// How many sizes and tunable axes it has: each has to be worth having.
    #[must_use]
    pub fn parts(&self) -> usize {
        self.sizes.len() + self.tunable.iter().filter(|tunable| **tunable).count()
    }

    /// The zones of its tunable axes.
    pub fn zones(&self) -> impl Iterator<Item = Zone> {
        let axes = Axis::ALL.into_iter().zip(self.tunable).filter(|(_, tunable)| *tunable);
        axes.flat_map(|(axis, _)| axis.zones().iter().copied())
    }

    /// The same without each of its parts, one after the other.
    pub(super) fn without_each(&self) -> impl Iterator<Item = (Part, Self)> {
        let sizes = self.sizes.iter().enumerate().map(|(at, rung)| {
            let mut less = self.clone();
            less.sizes.remove(at);
            (Part::Size(rung.clone()), less)
        });
        let tunable = self.tunable.iter().positions(|tunable| *tunable).map(|axis| {
            let mut less = self.clone();
            less.tunable[axis] = false;
            (Part::Tunable(Axis::ALL[axis]), less)
        });
        sizes.chain(tunable)
    }

    /// The model. Each size sits in a shell of its own; it is known exactly, since nobody has built it otherwise.
    pub(super) fn model(&self, habits: &Habits) -> Model {
        let zones = self.zones().collect_vec();
        let pads = zones.iter().flat_map(|zone| habits.choices.get(*zone).iter().map(|mm| (*zone, *mm)));
        let pads = pads.map(|(zone, thickness)| Pad {
            zone,
            thickness,
            supply: Supply::Single(Money::default()),
            sizes: None,
        });
        let pads = pads.collect_vec();
        let shell = |rung: &Rung| Shell {
            id: rung.label.clone(),
            sizes: vec![Size {
                label: rung.label.clone(),
                circumference: rung.circumference,
                standard: habits.pads,
                measured: None,
                face_width: None,
                runs_larger: 0.0,
            }],
            pads: pads.clone(),
            packs: Vec::new(),
            centre_sd: None,
        };
        Model {
            id: Id::nearest_to("new-model"),
            name: "New model".to_owned(),
            maker: String::new(),
            family: String::new(),
            kind: Kind::FullFace,
            price: Money::default(),
            interior: Interior {
                shape_index: self.shape_index,
                origin: Origin::Measured,
                sd: Some(0.0),
                centre_sd: Some(0.0),
            },
            attributes: Attributes {
                mass_g: 0.0,
                noise_db: None,
                spectacle_channel: false,
                intercom_ready: false,
                chin_room: None,
                approvals: Vec::new(),
            },
            swap_minutes: ByZone::from_fn(|_| 0.0),
            trade: Trade::Sale,
            shells: self.sizes.iter().map(shell).collect(),
        }
    }
}

/// Something that a new model could do without.
#[derive(Debug, Clone, PartialEq)]
pub enum Part {
    /// A size.
    Size(Rung),
    /// Other pads for the zones of an axis.
    Tunable(Axis),
}
