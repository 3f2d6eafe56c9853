//! A rule of the shop that names a size which its target doesn't have.

use super::{Agreement, unknown};
use crate::catalogue::Look;
use crate::diag::{Code, Diagnostic, note};
use crate::profile::{Model, Place, SizeHint};
use std::collections::BTreeMap;

pub(super) const AGREEMENT: Agreement = Agreement { code: CODE, find };
const CODE: Code = Code("unknown-size");

fn find(look: &Look<'_>) -> Vec<Diagnostic> {
    let models: BTreeMap<&str, (&Model, &Place)> =
        look.draft.models.iter().map(|model| (model.value.id.as_str(), (&model.value, &model.place))).collect();
    let mut found = Vec::new();
    for edge in &look.draft.edges {
        let (Some(SizeHint::Label(label)), Some((target, shelf))) =
            (&edge.value.size, models.get(edge.value.to.as_str()))
        else {
            continue;
        };
        let place = edge.place.key("size");
        let is_there = target.sizes().any(|(_, size)| size.label == *label);
        if !is_there && look.is_sound(&shelf.key("shells")) && look.is_sound(&place) {
            let known = target.sizes().map(|(_, size)| size.label.as_str());
            note(&mut found, || {
                let problem = unknown(look, CODE, ("size", label.as_str()), &place, known);
                problem.see(look.span(&shelf.key("id")), "not a size of this model")
            });
        }
    }
    found
}
