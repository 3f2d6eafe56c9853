//! What happens in a session.

use super::Unknown;
use super::opening::{model_is_known, size_is_known};
use crate::catalogue::Catalogue;
use crate::fit::PadSet;
use crate::journal::Read;
use crate::profile::Reason;
use crate::unit::Id;

/// Something that happened. Each holds what it needs to be understood without planning anew: another version of the
/// program, or changed profiles, read an old session as it was.
#[derive(Debug, Clone, PartialEq)]
pub enum Event {
    /// A helmet was on the head, and this was heard.
    Tried(Tried),
    /// The fitter goes on with a helmet or pads of their own choice.
    Chose(OnHead),
    /// The customer doesn't want to put this model on.
    Declined(Id),
    /// Something was measured.
    Measured(Read),
    /// What happened last is taken back.
    TookBack,
    /// The customer leaves, or the fit is written down.
    Ended,
}

/// A helmet with some pads in it.
#[derive(Debug, Clone, PartialEq)]
pub struct OnHead {
    /// The model.
    pub model: Id,
    /// The size.
    pub size: Id,
    /// The pads in it.
    pub pads: PadSet,
    /// Whether it was on the head before with other pads: then it is one more round of the same try.
    pub is_swap: bool,
}

/// What was heard of a helmet on the head.
#[derive(Debug, Clone, PartialEq)]
pub struct Tried {
    /// The helmet.
    pub helmet: OnHead,
    /// How probable a good fit was said to be before, with all pads on offer.
    pub fit_probability: Option<f64>,
    /// What it took in the shop's reckoning, minutes.
    pub minutes: f64,
    /// Why it is no good; `None` for a good fit.
    pub reason: Option<Reason>,
}

impl Event {
    /// Whether everything that it speaks of stands in the profiles.
    pub(super) fn check(&self, catalogue: &Catalogue) -> Result<(), Unknown> {
        match self {
            Self::Tried(Tried { helmet, .. }) | Self::Chose(helmet) => {
                size_is_known(catalogue, &helmet.model, &helmet.size)
            }
            Self::Declined(model) => model_is_known(catalogue, model).map(|_| ()),
            Self::Measured(_) | Self::TookBack | Self::Ended => Ok(()),
        }
    }
}
