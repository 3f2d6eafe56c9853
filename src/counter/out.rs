//! What a complaint puts out of the question, beyond the helmet that it was about.

use crate::catalogue::Catalogue;
use crate::profile::{Model, Nature, Reason, is_no_better};
use crate::unit::Id;

/// What needs no more trying.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Out {
    /// Models in every size.
    pub(super) models: Vec<Id>,
    /// `(model, size)`.
    pub(super) sizes: Vec<(Id, Id)>,
}

/// The models that a complaint about one of them puts out: none for what depends on the size, the model itself for the
/// rest, and with it every model that is no better in what was complained about.
pub(super) fn by_complaint(reason: Reason, model: &Model, catalogue: &Catalogue) -> Vec<Id> {
    if reason.nature() != Nature::Experience || depends_on_size(reason) {
        return Vec::new();
    }
    let others = catalogue.models().iter().filter(|other| other.id == model.id || is_no_better(reason, model, other));
    others.map(|other| other.id.clone()).collect()
}

/// Crown, ears and neck meet another shell or another height in the next size.
fn depends_on_size(reason: Reason) -> bool {
    matches!(reason, Reason::CrownPresses | Reason::CrownGap | Reason::EarPinch | Reason::RearEdgeInNeck)
}
