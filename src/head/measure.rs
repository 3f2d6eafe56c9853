//! The four measures of a head and one reading of one of them.

/// A head measure, named after ISO 7250-1.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Measure {
    /// Around the head above the brow ridges, with a tape.
    Circumference,
    /// From the glabella to the rearmost point.
    Length,
    /// The widest breadth, above the ears.
    Breadth,
    /// Bizygomatic: the widest breadth of the face, across the cheekbones.
    FaceWidth,
}

/// One value per measure, in mm.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Dimensions {
    /// Head circumference C.
    pub circumference: f64,
    /// Head length L.
    pub length: f64,
    /// Head breadth B.
    pub breadth: f64,
    /// Face width W.
    pub face_width: f64,
}

/// A reading: what was read, and how far such a reading is usually off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// What was measured.
    pub measure: Measure,
    /// The value read, mm.
    pub value: f64,
    /// Standard deviation of the reading, mm; 0 means exact.
    pub sd: f64,
}

impl Measure {
    /// All measures in the order of vectors and matrices: C, L, B, W.
    pub const ALL: [Self; 4] = [Self::Circumference, Self::Length, Self::Breadth, Self::FaceWidth];

    /// Its place in that order.
    #[must_use]
    pub fn index(self) -> usize {
        match self {
            Self::Circumference => 0,
            Self::Length => 1,
            Self::Breadth => 2,
            Self::FaceWidth => 3,
        }
    }

    /// The trade's word for it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Circumference => "circumference",
            Self::Length => "length",
            Self::Breadth => "breadth",
            Self::FaceWidth => "face width",
        }
    }

    /// Below or above this no adult or child that wears a helmet has it: `(least, most)` in mm.
    /// Wide of everything in the surveys on purpose (from memory of their extremes), to catch
    /// slips of the unit or the pen, not rare heads.
    #[must_use]
    pub fn human_range(self) -> (f64, f64) {
        match self {
            Self::Circumference => (440.0, 700.0),
            Self::Length => (140.0, 250.0),
            Self::Breadth => (110.0, 210.0),
            Self::FaceWidth => (90.0, 190.0),
        }
    }
}

impl Dimensions {
    /// In the order C, L, B, W.
    #[must_use]
    pub fn from_array([circumference, length, breadth, face_width]: [f64; 4]) -> Self {
        Self { circumference, length, breadth, face_width }
    }

    /// In the order C, L, B, W.
    #[must_use]
    pub fn to_array(self) -> [f64; 4] {
        [self.circumference, self.length, self.breadth, self.face_width]
    }
}
