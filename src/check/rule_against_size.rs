//! A rule that goes the wrong way in size: down after "too tight", up after "too loose" or after a helmet that came off.
//! Nothing needs to be computed to see that.

use super::{Case, Rule};
use crate::diag::{Code, Diagnostic};
use crate::profile::{Reason, SizeHint};

pub(super) const RULE: Rule = Rule { code: CODE, find };
const CODE: Code = Code("rule-against-size");

fn find(case: &Case<'_>) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for edge in case.look.draft.edges.iter().filter(|edge| case.look.is_sound(&edge.place)) {
        let (way, better) = match (edge.value.reason, &edge.value.size) {
            (Reason::TightAllRound | Reason::CheeksSqueeze, Some(SizeHint::Down)) => ("down", "up"),
            (
                Reason::LooseAllRound
                | Reason::CheeksLoose
                | Reason::RollsOffForward
                | Reason::RollsOffBackward
                | Reason::TurnsOnHead,
                Some(SizeHint::Up),
            ) => ("up", "down"),
            _ => continue,
        };
        let message = format!("after {} this rule goes {way} a size", edge.value.reason.id());
        let problem = Diagnostic::warning(CODE, message)
            .at(case.look.span(&edge.place.key("size")), "the wrong way")
            .see(case.look.span(&edge.place.key("reason")), "for this reason")
            .help(format!("write `size: {better}` or `size: same`, or leave `size` out"));
        found.push(problem);
    }
    found
}
