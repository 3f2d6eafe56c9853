//! What a model must have less of, or more, to answer a complaint about another.

use super::{Model, Reason};

/// Whether another model has no less of what a customer complained about: as heavy after "too heavy", as loud after "too
/// noisy", as dear after "over budget", no more room for a chin that touches, no channel for spectacles. What the
/// profiles don't tell speaks against no model.
#[must_use]
pub fn is_no_better(reason: Reason, failed: &Model, other: &Model) -> bool {
    let (before, after) = (&failed.attributes, &other.attributes);
    match reason {
        Reason::TooHeavy => after.mass_g >= before.mass_g,
        Reason::OverBudget => other.price >= failed.price,
        Reason::TooNoisy => after.noise_db.zip(before.noise_db).is_some_and(|(after, before)| after >= before),
        Reason::SpectaclesClash => !after.spectacle_channel,
        Reason::ChinTouchesBar => after.chin_room.zip(before.chin_room).is_some_and(|(after, before)| after <= before),
        _ => false,
    }
}
