//! What a customer takes home from a session.

use super::event::Tried;
use super::standing::{Ended, Standing};
use crate::catalogue::Catalogue;
use crate::fit::{PadSet, price};
use crate::profile::{Model, Shell, Size};
use crate::unit::Money;

/// What a customer takes home.
#[derive(Debug, Clone, PartialEq)]
pub struct Summary<'a> {
    /// The helmet that fits; `None` where none does.
    pub fitted: Option<Fitted<'a>>,
    /// Everything that was tried, in order.
    pub tried: Vec<Tried>,
    /// How it ended; `None` for a session that goes on.
    pub ended: Option<Ended>,
    /// Helmets that were on.
    pub helmets: usize,
    /// Minutes in the shop's reckoning.
    pub minutes: f64,
}

/// The helmet that fits.
#[derive(Debug, Clone, PartialEq)]
pub struct Fitted<'a> {
    /// The model.
    pub model: &'a Model,
    /// The shell of the size: its pads fit no other.
    pub shell: &'a Shell,
    /// The size.
    pub size: &'a Size,
    /// The pads in it.
    pub pads: PadSet,
    /// What the pads cost that are not standard.
    pub pad_price: Money,
}

/// Sums a session up.
#[must_use]
pub fn summary<'a>(catalogue: &'a Catalogue, standing: &Standing) -> Summary<'a> {
    Summary {
        fitted: standing.tried.last().filter(|tried| tried.reason.is_none()).and_then(|tried| fitted(catalogue, tried)),
        tried: standing.tried.clone(),
        ended: standing.ended,
        helmets: standing.helmets(),
        minutes: standing.minutes(),
    }
}

fn fitted<'a>(catalogue: &'a Catalogue, tried: &Tried) -> Option<Fitted<'a>> {
    let model = catalogue.model(tried.helmet.model.as_str())?;
    let (shell, size) = model.size(&tried.helmet.size)?;
    let pads = tried.helmet.pads;
    Some(Fitted { model, shell, size, pads, pad_price: price(&pads, shell, size) })
}
