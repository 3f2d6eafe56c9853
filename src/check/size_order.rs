//! Sizes that don't stand from the smallest to the largest: most often two labels were mixed up.

use super::parts::sizes;
use super::{Case, Rule};
use crate::diag::{Code, Diagnostic};
use itertools::Itertools;

pub(super) const RULE: Rule = Rule { code: CODE, find };
const CODE: Code = Code("size-order");

fn find(case: &Case<'_>) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for model in &case.look.draft.models {
        let is_sound = |size: &super::parts::PlacedSize<'_>| case.look.is_sound(&size.place.key("circumference_cm"));
        for (earlier, later) in sizes(model).filter(is_sound).tuple_windows() {
            if later.value.centre() < earlier.value.centre() {
                let (first, second) = (earlier.value, later.value);
                let message = format!(
                    "size {} ({}) stands behind {} ({}), but is smaller",
                    second.label,
                    second.range(),
                    first.label,
                    first.range()
                );
                let problem = Diagnostic::warning(CODE, message)
                    .at(case.look.span(&later.place.key("circumference_cm")), "smaller")
                    .see(case.look.span(&earlier.place.key("circumference_cm")), "than this one before it")
                    .help("put sizes and shells in order, smallest first, and look whether two labels were mixed up");
                found.push(problem);
            }
        }
    }
    found
}
