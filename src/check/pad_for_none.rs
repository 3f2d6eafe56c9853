//! A pad for a zone in which no size that takes it has a pad: there is nothing to swap it for.

use super::parts::shells;
use super::{Case, Rule};
use crate::diag::{Code, Diagnostic};

pub(super) const RULE: Rule = Rule { code: CODE, find };
const CODE: Code = Code("pad-for-none");

fn find(case: &Case<'_>) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for model in &case.look.draft.models {
        for shell in shells(model) {
            if !case.look.is_sound(&shell.place.key("sizes")) {
                continue;
            }
            for (pad, place) in shell.pads().filter(|(_, place)| case.look.is_sound(place)) {
                let taking: Vec<_> = shell.sizes().filter(|size| pad.fits_size(&size.value.label)).collect();
                let Some(first) = taking.first() else { continue };
                if taking.iter().all(|size| size.value.standard.get(pad.zone).is_none()) {
                    let zone = pad.zone.name();
                    let message = format!("a pad for the {zone}, but no size that takes it has a standard pad there");
                    let problem = Diagnostic::warning(CODE, message)
                        .at(case.look.span(&place.key("zone")), "nothing to swap")
                        .see(case.look.span(&first.place.key("standard_pads_mm")), "such as here")
                        .help("correct the zone, or write the standard pad's thickness into the sizes");
                    found.push(problem);
                }
            }
        }
    }
    found
}
