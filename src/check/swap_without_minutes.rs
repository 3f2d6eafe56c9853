//! Pads on offer for a zone whose swap takes no time: the plan would swap them for nothing.

use super::parts::shells;
use super::{Case, Rule};
use crate::diag::{Code, Diagnostic};
use crate::profile::{Place, Zone};
use std::collections::BTreeSet;

pub(super) const RULE: Rule = Rule { code: CODE, find };
const CODE: Code = Code("swap-without-minutes");

fn find(case: &Case<'_>) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    // The minutes stand once a file: the first pad that needs them tells.
    let mut told: BTreeSet<(Place, Zone)> = BTreeSet::new();
    for model in &case.look.draft.models {
        let minutes = model.place.file().key("swap_minutes");
        if !case.look.is_sound(&minutes) {
            continue;
        }
        for shell in shells(model) {
            for (pad, place) in shell.pads().filter(|(_, place)| case.look.is_sound(place)) {
                // A plan never swaps the crown: nothing is computed there.
                let is_free = *model.value.swap_minutes.get(pad.zone) <= 0.0 && pad.zone.axis().is_some();
                if is_free && told.insert((minutes.clone(), pad.zone)) {
                    let zone = pad.zone.name();
                    let problem = Diagnostic::warning(CODE, format!("swapping the pads of the {zone} takes no time"))
                        .at(case.look.span(&minutes.key(zone)), "no minutes for it")
                        .see(case.look.span(&place), "a pad to swap")
                        .help(format!("write how long it takes, as `{zone}: 2`"));
                    found.push(problem);
                }
            }
        }
    }
    found
}
