//! The shop names a population which no file defines.

use super::{Agreement, unknown};
use crate::catalogue::{FileKind, Look};
use crate::diag::{Code, Diagnostic};

pub(super) const AGREEMENT: Agreement = Agreement { code: CODE, find };
const CODE: Code = Code("unknown-population");

fn find(look: &Look<'_>) -> Vec<Diagnostic> {
    let Some(shop) = &look.draft.shop else { return Vec::new() };
    let known = || look.draft.populations.iter().map(|population| population.value.id.as_str());
    let named = [("population", &shop.value.population), ("nominal_face_width_from", &shop.value.face_width_from)];
    let mut found = Vec::new();
    for (key, id) in named {
        let place = shop.place.key(key);
        let is_known = known().any(|known| known == id.as_str());
        if !is_known && !look.may_define(FileKind::Population, id.as_str()) && look.is_sound(&place) {
            found.push(unknown(look, CODE, ("population", id.as_str()), &place, known()));
        }
    }
    found
}
