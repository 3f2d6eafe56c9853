//! Reasons for which no model has a rule: whatever the customer says, the shop's experience has no answer.

use super::{Case, Rule};
use crate::catalogue::FileKind;
use crate::diag::{Code, Diagnostic};
use crate::profile::Reason;

pub(super) const RULE: Rule = Rule { code: CODE, find };
const CODE: Code = Code("unhandled-reason");

fn find(case: &Case<'_>) -> Vec<Diagnostic> {
    let draft = case.look.draft;
    let Some(first) = draft.edges.first().filter(|_| !draft.hidden.contains(&FileKind::Fallbacks)) else {
        return Vec::new();
    };
    let is_handled = |reason: &Reason| {
        let in_a_rule = draft.edges.iter().any(|edge| edge.value.reason == *reason);
        in_a_rule || case.look.may_define(FileKind::Fallbacks, reason.id())
    };
    let open: Vec<_> = Reason::ALL.into_iter().filter(|reason| !is_handled(reason)).map(Reason::id).collect();
    if open.is_empty() {
        return Vec::new();
    }
    let (noun, them) = if open.len() == 1 { ("reason", "it") } else { ("reasons", "them") };
    let message = format!("no rule is for the {noun} {}", open.join(", "));
    let problem = Diagnostic::warning(CODE, message)
        .at(case.look.key_span(&first.place.file().key("edges")), "none of these rules")
        .help(format!("write down what the shop tries next when a customer says {them}"));
    vec![problem]
}
