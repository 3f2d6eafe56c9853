//! A rule from a model to the same model in the same size: what failed would be tried again. Another size of the same
//! model is a rule like any other, when it says which.

use super::{Case, Rule};
use crate::diag::{Code, Diagnostic};
use crate::profile::SizeHint;

pub(super) const RULE: Rule = Rule { code: CODE, find };
const CODE: Code = Code("rule-to-itself");

fn find(case: &Case<'_>) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for edge in case.look.draft.edges.iter().filter(|edge| case.look.is_sound(&edge.place)) {
        let says_no_other_size = matches!(edge.value.size, None | Some(SizeHint::Same));
        if edge.value.from == edge.value.to && says_no_other_size {
            let message = format!("this rule leads from {} back to {}", edge.value.from, edge.value.to);
            let problem = Diagnostic::warning(CODE, message)
                .at(case.look.span(&edge.place.key("to")), "the model that has just failed")
                .help("name another model, or the other size to try: `size: up`, `size: down` or a label");
            found.push(problem);
        }
    }
    found
}
