//! A helmet without an approval mark: nobody should leave with one.

use super::{Case, Rule};
use crate::diag::{Code, Diagnostic};

pub(super) const RULE: Rule = Rule { code: CODE, find };
const CODE: Code = Code("approval-missing");

fn find(case: &Case<'_>) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for model in &case.look.draft.models {
        let place = model.place.key("attributes").key("approvals");
        if model.value.attributes.approvals.is_empty() && case.look.is_sound(&place) {
            let problem = Diagnostic::warning(CODE, format!("{} has no approval mark", model.value.name))
                .at(case.look.span(&place), "no mark")
                .help("write the marks that stand on its label; don't sell a helmet that has none");
            found.push(problem);
        }
    }
    found
}
