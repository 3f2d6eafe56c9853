//! Two models or two populations with one id: rules and options could not tell them apart. (Two of a name within one
//! model are found where the model is read.)

use super::Agreement;
use crate::catalogue::Look;
use crate::diag::{Code, Diagnostic, note};
use crate::profile::Place;
use crate::unit::Id;
use std::collections::BTreeMap;

pub(super) const AGREEMENT: Agreement = Agreement { code: CODE, find };
const CODE: Code = Code("profile-duplicate");

fn find(look: &Look<'_>) -> Vec<Diagnostic> {
    let models = look.draft.models.iter().map(|model| (&model.value.id, model.place.key("id")));
    let populations =
        look.draft.populations.iter().map(|population| (&population.value.id, population.place.key("id")));
    let mut found = doubles(look, "model", models);
    found.extend(doubles(look, "population", populations));
    found
}

fn doubles<'d>(look: &Look<'_>, what: &str, named: impl Iterator<Item = (&'d Id, Place)>) -> Vec<Diagnostic> {
    let mut first: BTreeMap<&Id, Place> = BTreeMap::new();
    let mut found = Vec::new();
    for (id, place) in named {
        match first.get(id) {
            // A bad name has the same stand-in as the next bad name.
            Some(first) if look.is_sound(&place) => note(&mut found, || {
                Diagnostic::error(CODE, format!("{what} `{id}` is defined twice"))
                    .at(look.span(&place), "the second one")
                    .see(look.span(first), "the first one")
                    .help("give one of them another id, or take it out")
            }),
            Some(_) => {}
            None => drop(first.insert(id, place)),
        }
    }
    found
}
