//! A rule of the shop that names a model which no file defines.

use super::{Agreement, unknown};
use crate::catalogue::{FileKind, Look};
use crate::diag::{Code, Diagnostic, note};
use std::collections::BTreeSet;

pub(super) const AGREEMENT: Agreement = Agreement { code: CODE, find };
const CODE: Code = Code("unknown-model");

fn find(look: &Look<'_>) -> Vec<Diagnostic> {
    let known: BTreeSet<&str> = look.draft.models.iter().map(|model| model.value.id.as_str()).collect();
    if known.is_empty() {
        // Without any helmet, `profile-empty` says what is wrong.
        return Vec::new();
    }
    let mut found = Vec::new();
    for edge in &look.draft.edges {
        for (key, id) in [("from", edge.value.from.as_str()), ("to", edge.value.to.as_str())] {
            let place = edge.place.key(key);
            if !known.contains(id) && !look.may_define(FileKind::Helmets, id) && look.is_sound(&place) {
                note(&mut found, || unknown(look, CODE, ("model", id), &place, known.iter().copied()));
            }
        }
    }
    found
}
