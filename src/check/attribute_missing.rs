//! Something that a filter or a rule asks for, and the profile doesn't say: the room before the chin of a helmet with
//! a bar (`--must chin-room` takes one without a word about it for one without a bar), and the noise of both helmets
//! of a rule about noise.

use super::{Case, Rule};
use crate::diag::{Code, Diagnostic};
use crate::profile::{Kind, Model, Placed, Reason};
use std::collections::BTreeSet;

pub(super) const RULE: Rule = Rule { code: CODE, find };
const CODE: Code = Code("attribute-missing");

fn find(case: &Case<'_>) -> Vec<Diagnostic> {
    let chin = case.look.draft.models.iter().filter_map(|model| no_chin_room(case, model));
    chin.chain(no_noise(case)).collect()
}

fn no_chin_room(case: &Case<'_>, model: &Placed<Model>) -> Option<Diagnostic> {
    let place = model.place.key("attributes");
    let has_bar = model.value.kind != Kind::OpenFace;
    let is_sound = case.look.is_sound(&place) && case.look.is_sound(&model.place.key("type"));
    if !has_bar || model.value.attributes.chin_room.is_some() || !is_sound {
        return None;
    }
    let message = format!("{} has a bar before the chin, but no `chin_room`", model.value.name);
    let problem = Diagnostic::warning(CODE, message)
        .at(case.look.span(&place), "`chin_room` is missing")
        .see(case.look.span(&model.place.key("type")), "helmets of this type have a bar")
        .help("write `chin_room: small`, `medium` or `large`: `--must chin-room` goes by it");
    Some(problem)
}

fn no_noise(case: &Case<'_>) -> Vec<Diagnostic> {
    let mut told = BTreeSet::new();
    let mut found = Vec::new();
    for edge in case.look.draft.edges.iter().filter(|edge| edge.value.reason == Reason::TooNoisy) {
        for (key, id) in [("from", &edge.value.from), ("to", &edge.value.to)] {
            let Some(model) = case.model(id) else { continue };
            let place = model.place.key("attributes");
            let is_silent = model.value.attributes.noise_db.is_none() && case.look.is_sound(&place);
            if is_silent && told.insert(id) {
                let message = format!("a rule is about the noise of {}, but it has no `noise_db`", model.value.name);
                let problem = Diagnostic::warning(CODE, message)
                    .at(case.look.span(&place), "`noise_db` is missing")
                    .see(case.look.span(&edge.place.key(key)), "this rule")
                    .help("write the noise at the ear by the shop's own list, in dB(A): `noise_db: 104`");
                found.push(problem);
            }
        }
    }
    found
}
