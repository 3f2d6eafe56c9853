//! A helmet model as the shop knows it.

use super::zone::{ByZone, Zone};
use crate::unit::{Id, Money};

/// A model: one interior shape in several sizes, which sit in one or more shells.
#[derive(Debug, Clone, PartialEq)]
pub struct Model {
    /// Its name in the profiles.
    pub id: Id,
    /// Its name for people.
    pub name: String,
    /// Who makes it.
    pub maker: String,
    /// The family that it belongs to.
    pub family: String,
    /// What kind of helmet it is.
    pub kind: Kind,
    /// Price of the helmet with its standard pads.
    pub price: Money,
    /// Shape of the interior.
    pub interior: Interior,
    /// What it has besides a shape.
    pub attributes: Attributes,
    /// Minutes to swap the pads of a zone.
    pub swap_minutes: ByZone<f64>,
    /// Whether standard pads go back when others are fitted.
    pub trade: Trade,
    /// The shells, at least one, each with at least one size.
    pub shells: Vec<Shell>,
}

/// What kind of helmet it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[expect(missing_docs, reason = "the trade's words")]
pub enum Kind {
    FullFace,
    FlipFront,
    OpenFace,
    Adventure,
    OffRoad,
}

/// Shape of the interior and how well it is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interior {
    /// 100 × interior breadth / length in the hat-band plane.
    pub shape_index: f64,
    /// Where it comes from.
    pub origin: Origin,
    /// Its standard deviation where the profile overrides what the shop assumes for this origin.
    pub sd: Option<f64>,
    /// The standard deviation of the sizes' centres, mm of circumference, where it is overridden.
    pub centre_sd: Option<f64>,
}

/// Where the interior of a profile comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Origin {
    /// From a fitter's experience.
    ByEye,
    /// Measured in the empty helmet.
    Measured,
    /// Learned from recorded tries.
    Learned,
}

/// What a model has besides a shape.
#[derive(Debug, Clone, PartialEq)]
pub struct Attributes {
    /// Mass, g.
    pub mass_g: f64,
    /// Noise at the ear by the shop's own list, dB(A) at 100 km/h.
    pub noise_db: Option<f64>,
    /// Whether spectacles have a channel.
    pub spectacle_channel: bool,
    /// Whether an intercom has its place.
    pub intercom_ready: bool,
    /// Room before the chin; none for helmets without a bar.
    pub chin_room: Option<ChinRoom>,
    /// Approval marks on the label.
    pub approvals: Vec<String>,
}

/// Room before the chin.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[expect(missing_docs, reason = "plain words")]
pub enum ChinRoom {
    Small,
    Medium,
    Large,
}

/// Whether standard pads go back when others are fitted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Trade {
    /// The standard pad is handed back, for this share of its price.
    Exchange {
        /// From 0, for nothing, to 1.
        credit: f64,
    },
    /// The customer keeps both.
    Sale,
}

/// One outer shell. Its pads fit no other shell.
#[derive(Debug, Clone, PartialEq)]
pub struct Shell {
    /// Its name within the model.
    pub id: Id,
    /// The sizes made in it, smallest first.
    pub sizes: Vec<Size>,
    /// Pads on offer for it.
    pub pads: Vec<Pad>,
    /// Packs in which some of them are sold.
    pub packs: Vec<Pack>,
    /// The standard deviation of its sizes' centres, mm of circumference, where it overrides the model's.
    pub centre_sd: Option<f64>,
}

/// One size.
#[derive(Debug, Clone, PartialEq)]
pub struct Size {
    /// Its label (`M`).
    pub label: Id,
    /// The labelled range of circumference, mm.
    pub circumference: (f64, f64),
    /// Thickness of the standard pads, mm; a zone without a pad has none. Brow, rear and sides always do.
    pub standard: ByZone<Option<f64>>,
    /// Interior measured in the empty helmet, where somebody did.
    pub measured: Option<MeasuredInterior>,
    /// Face width of the nominal head, where it is known, mm.
    pub face_width: Option<f64>,
    /// How much larger than its label, or than the measured interior, it was learned to be, mm of circumference: the
    /// same for all sizes of a shell, 0 where nothing was learned.
    pub runs_larger: f64,
}

/// Between the faces of the uncompressed standard pads, in the hat-band plane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MeasuredInterior {
    /// Front to back, mm.
    pub length: f64,
    /// Side to side, mm.
    pub breadth: f64,
}

/// A pad on offer (a pair counts as one).
#[derive(Debug, Clone, PartialEq)]
pub struct Pad {
    /// Where it sits.
    pub zone: Zone,
    /// Thickness, mm.
    pub thickness: f64,
    /// How it is sold.
    pub supply: Supply,
    /// The sizes that take it; all of the shell where `None`.
    pub sizes: Option<Vec<Id>>,
}

/// How a pad is sold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Supply {
    /// On its own.
    Single(Money),
    /// Only in this pack of the shell (its place in [`Shell::packs`]).
    Pack(usize),
}

/// Pads of one shell that are sold together.
#[derive(Debug, Clone, PartialEq)]
pub struct Pack {
    /// Its name within the shell.
    pub id: Id,
    /// Price of the whole.
    pub price: Money,
}

impl Model {
    /// Every size with its shell, in the order of the profile.
    pub fn sizes(&self) -> impl Iterator<Item = (&Shell, &Size)> {
        self.shells.iter().flat_map(|shell| shell.sizes.iter().map(move |size| (shell, size)))
    }

    /// The size with this label, and its shell.
    #[must_use]
    pub fn size(&self, label: &Id) -> Option<(&Shell, &Size)> {
        self.sizes().find(|(_, size)| size.label == *label)
    }
}

impl Kind {
    /// All kinds.
    pub const ALL: [Self; 5] = [Self::FullFace, Self::FlipFront, Self::OpenFace, Self::Adventure, Self::OffRoad];

    /// The trade's word, as profiles and options write it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::FullFace => "full-face",
            Self::FlipFront => "flip-front",
            Self::OpenFace => "open-face",
            Self::Adventure => "adventure",
            Self::OffRoad => "off-road",
        }
    }
}

impl Size {
    /// Middle of the labelled range, mm of circumference.
    #[must_use]
    pub fn centre(&self) -> f64 {
        f64::midpoint(self.circumference.0, self.circumference.1)
    }
}

impl Pad {
    /// Whether this size takes it.
    #[must_use]
    pub fn fits_size(&self, label: &Id) -> bool {
        self.sizes.as_ref().is_none_or(|sizes| sizes.contains(label))
    }
}
