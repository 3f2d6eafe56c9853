//! Where pads sit in a helmet, and the axes of the head that they act on.

/// A pad zone. Left and right are one pair.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Zone {
    /// At the forehead.
    Brow,
    /// At the back of the head.
    Rear,
    /// Above the ears, at the temples.
    Sides,
    /// On top. No measure of the head says whether it fits: only the fit checks do.
    Crown,
    /// Beside the face.
    Cheeks,
}

/// An axis of the head along which foam is compressed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Axis {
    /// Front to back: brow and rear pads.
    Length,
    /// Side to side: both side pads.
    Breadth,
    /// Across the face: both cheek pads.
    FaceWidth,
}

/// One value per zone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct ByZone<T>([T; 5]);

impl Zone {
    /// All zones, in the order in which output lists them.
    pub const ALL: [Self; 5] = [Self::Brow, Self::Rear, Self::Sides, Self::Crown, Self::Cheeks];

    /// The trade's word, as profiles write it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Brow => "brow",
            Self::Rear => "rear",
            Self::Sides => "sides",
            Self::Crown => "crown",
            Self::Cheeks => "cheeks",
        }
    }

    /// The axis that its pads act on; the crown acts on none that is measured.
    #[must_use]
    pub fn axis(self) -> Option<Axis> {
        match self {
            Self::Brow | Self::Rear => Some(Axis::Length),
            Self::Sides => Some(Axis::Breadth),
            Self::Cheeks => Some(Axis::FaceWidth),
            Self::Crown => None,
        }
    }
}

impl Axis {
    /// All axes, in the order of every array of three here.
    pub const ALL: [Self; 3] = [Self::Length, Self::Breadth, Self::FaceWidth];

    /// The zones whose pads act on it.
    #[must_use]
    pub fn zones(self) -> &'static [Zone] {
        match self {
            Self::Length => &[Zone::Brow, Zone::Rear],
            Self::Breadth => &[Zone::Sides],
            Self::FaceWidth => &[Zone::Cheeks],
        }
    }

    /// How many pads of one of its zones lie on the axis: brow and rear one each, pairs two.
    #[must_use]
    pub fn pads_per_zone(self) -> f64 {
        match self {
            Self::Length => 1.0,
            Self::Breadth | Self::FaceWidth => 2.0,
        }
    }

    /// How output names it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Length => "front to back",
            Self::Breadth => "side to side",
            Self::FaceWidth => "cheeks",
        }
    }
}

impl<T> ByZone<T> {
    /// Builds it from what each zone has.
    pub fn from_fn(value: impl FnMut(Zone) -> T) -> Self {
        Self(Zone::ALL.map(value))
    }

    /// The value of a zone.
    pub fn get(&self, zone: Zone) -> &T {
        &self.0[zone as usize]
    }

    /// The value of a zone, to change it.
    pub fn get_mut(&mut self, zone: Zone) -> &mut T {
        &mut self.0[zone as usize]
    }

    /// Zones with their values.
    pub fn iter(&self) -> impl Iterator<Item = (Zone, &T)> {
        Zone::ALL.into_iter().zip(&self.0)
    }
}
