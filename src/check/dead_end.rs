//! A model that often fails for a reason for which the shop has no rule: the fitter is left alone just where experience
//! counts.

use super::{Case, Rule};
use crate::catalogue::FileKind;
use crate::diag::{Code, Diagnostic};
use crate::profile::Reason;

pub(super) const RULE: Rule = Rule { code: CODE, find };
const CODE: Code = Code("dead-end");

fn find(case: &Case<'_>) -> Vec<Diagnostic> {
    let (trusted, sample) = (case.trusted, case.sample);
    if case.look.draft.edges.is_empty() || case.look.draft.hidden.contains(&FileKind::Fallbacks) {
        return Vec::new();
    }
    let mut found = Vec::new();
    for model in case.sound_models() {
        let id = &model.value.id;
        for reason in Reason::geometric().iter().copied().filter(|reason| !case.has_rule(id, *reason)) {
            let share = sample.share_of_failures(id, reason);
            if share > trusted.shop.checking.common_reason {
                let message = format!(
                    "{:.0} % of the heads within the labels of {} fail with {}, and no rule says what to try next",
                    100.0 * share,
                    model.value.name,
                    reason.id()
                );
                let (to, fits) = sample.best_after(id, reason).map_or(("...", String::new()), |(to, share)| {
                    (to.as_str(), format!("; {:.0} % of such heads fit {to}", 100.0 * share))
                });
                let help = format!(
                    "write a rule such as {{from: {id}, reason: {}, to: {to}, note: \"...\"}} into fallbacks.yaml{fits}",
                    reason.id()
                );
                let place = case.look.span(&model.place.key("id"));
                found.push(Diagnostic::warning(CODE, message).at(place, "a dead end").help(help));
            }
        }
    }
    found
}
