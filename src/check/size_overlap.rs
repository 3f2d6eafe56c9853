//! Two sizes of a model for the same heads: one of the labels is hardly what stands in the helmet.

use super::parts::ladder;
use super::{Case, Rule};
use crate::diag::{Code, Diagnostic};
use itertools::Itertools;

pub(super) const RULE: Rule = Rule { code: CODE, find };
const CODE: Code = Code("size-overlap");

fn find(case: &Case<'_>) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for model in &case.look.draft.models {
        for (smaller, larger) in ladder(case, model).iter().tuple_windows() {
            // Makers do let one size end where the next begins: 55-57, 57-59.
            if larger.value.circumference.0 < smaller.value.circumference.1 - 1e-6 {
                let (first, second) = (smaller.value, larger.value);
                let message =
                    format!("{} ({}) overlaps {} ({})", second.label, second.range(), first.label, first.range());
                let problem = Diagnostic::warning(CODE, message)
                    .at(case.look.span(&larger.place.key("circumference_cm")), "begins before the other ends")
                    .see(case.look.span(&smaller.place.key("circumference_cm")), "the size below it")
                    .help("write the range that stands on the label of each");
                found.push(problem);
            }
        }
    }
    found
}
