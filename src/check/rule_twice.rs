//! The same rule twice: one of the lines is a slip, or was meant for another reason or model.

use super::{Case, Rule};
use crate::diag::{Code, Diagnostic};
use std::collections::BTreeMap;

pub(super) const RULE: Rule = Rule { code: CODE, find };
const CODE: Code = Code("rule-twice");

fn find(case: &Case<'_>) -> Vec<Diagnostic> {
    let mut first = BTreeMap::new();
    let mut found = Vec::new();
    for edge in case.look.draft.edges.iter().filter(|edge| case.look.is_sound(&edge.place)) {
        let rule = &edge.value;
        let size = rule.size.as_ref().map(|size| format!("{size:?}"));
        if let Some(earlier) = first.insert((&rule.from, rule.reason, &rule.to, size), &edge.place) {
            let message = format!("{} leads to {} for {} twice", rule.from, rule.to, rule.reason.id());
            let problem = Diagnostic::warning(CODE, message)
                .at(case.look.span(&edge.place.key("to")), "the second one")
                .see(case.look.span(&earlier.key("to")), "the first one")
                .help("take one out, or correct its reason, its target or its size");
            found.push(problem);
        }
    }
    found
}
