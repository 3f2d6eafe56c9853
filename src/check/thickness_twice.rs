//! The same pad twice: one zone, one thickness, sold the same way to the same size. One of the lines is a slip.

use super::parts::shells;
use super::{Case, Rule};
use crate::diag::{Code, Diagnostic};
use crate::profile::{Pad, Shell, Supply};
use itertools::Itertools;

pub(super) const RULE: Rule = Rule { code: CODE, find };
const CODE: Code = Code("thickness-twice");

fn find(case: &Case<'_>) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for model in &case.look.draft.models {
        for shell in shells(model) {
            let pads: Vec<_> = shell.pads().filter(|(_, place)| case.look.is_sound(place)).collect();
            for [(first, first_place), (second, second_place)] in pads.iter().array_combinations() {
                if are_same(first, second, shell.value) {
                    let message =
                        format!("a pad of {} mm for the {} stands here twice", second.thickness, second.zone.name());
                    let problem = Diagnostic::warning(CODE, message)
                        .at(case.look.span(&second_place.key("thickness_mm")), "the second one")
                        .see(case.look.span(&first_place.key("thickness_mm")), "the first one")
                        .help("take one out, or correct its thickness, its zone or its sizes");
                    found.push(problem);
                }
            }
        }
    }
    found
}

/// A pad that is sold singly and in a pack as well is no slip.
fn are_same(a: &Pad, b: &Pad, shell: &Shell) -> bool {
    let share_size = shell.sizes.iter().any(|size| a.fits_size(&size.label) && b.fits_size(&size.label));
    let sold_alike = match (a.supply, b.supply) {
        (Supply::Single(_), Supply::Single(_)) => true,
        (Supply::Pack(a), Supply::Pack(b)) => a == b,
        _ => false,
    };
    a.zone == b.zone && (a.thickness - b.thickness).abs() < 0.05 && share_size && sold_alike
}
