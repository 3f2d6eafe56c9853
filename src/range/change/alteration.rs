//! What is altered: a model goes, comes in, or loses pads.

use crate::catalogue::Catalogue;
use crate::fit::Nominal;
use crate::profile::{Interior, Model, Origin, Zone};
use crate::unit::Id;

/// One alteration of a range.
#[derive(Debug, Clone, PartialEq)]
pub struct Alteration {
    /// What is done.
    pub what: What,
    /// The model as it was asked for.
    pub id: String,
    /// The model's name for people.
    pub name: String,
    /// The column of the range that is no longer there so.
    pub out: Option<usize>,
    /// The model that is there instead, or is new. Models of one id are off together: one with fewer pads keeps its id, and a
    /// new one has an id of its own.
    pub put: Option<Model>,
}

/// What is done.
#[derive(Debug, Clone, PartialEq)]
pub enum What {
    /// A model of the range goes.
    Dropped,
    /// A model comes in.
    Added,
    /// A model comes in that is like another one.
    Like {
        /// The other one's name for people.
        name: String,
        /// The other one's shape index.
        from: f64,
    },
    /// A model of the range comes without some pads.
    WithoutPads(Vec<LeftOut>),
}

/// Pads on offer that aren't kept: all, those of a zone, or those of a thickness in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
#[expect(missing_docs, reason = "said above")]
pub enum LeftOut {
    All,
    Zone(Zone),
    Pad(Zone, f64),
}

impl LeftOut {
    /// Whether it is meant.
    #[must_use]
    pub fn holds(self, zone: Zone, thickness: f64) -> bool {
        match self {
            Self::All => true,
            Self::Zone(left_out) => zone == left_out,
            Self::Pad(left_out, mm) => zone == left_out && (thickness - mm).abs() < 1e-9,
        }
    }
}

/// A model like another one with another shape index: as large as that one in each size, and known by eye only.
#[must_use]
pub fn like(model: &Model, id: Id, shape_index: f64, catalogue: &Catalogue) -> Model {
    let mut like = model.clone();
    like.id = id;
    like.interior = Interior { shape_index, origin: Origin::ByEye, sd: None, centre_sd: None };
    for shell in &mut like.shells {
        shell.centre_sd = None;
        for size in &mut shell.sizes {
            let as_it_is = Nominal::of(model, size, &catalogue.shop.fit, catalogue.face_width_rule());
            size.runs_larger = as_it_is.circumference - size.centre();
            size.measured = None;
        }
    }
    like
}

/// A model without some of the pads on offer. What it comes with stays.
#[must_use]
pub fn without_pads(model: &Model, left_out: &[LeftOut]) -> Model {
    let mut fewer = model.clone();
    for shell in &mut fewer.shells {
        shell.pads.retain(|pad| !left_out.iter().any(|left_out| left_out.holds(pad.zone, pad.thickness)));
    }
    fewer
}
