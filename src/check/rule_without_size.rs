//! A rule whose size the target never has: nothing of it may be tried, whatever size failed.

use super::{Case, Rule};
use crate::diag::{Code, Diagnostic};
use crate::fallback::allows_size;
use crate::profile::SizeHint;

pub(super) const RULE: Rule = Rule { code: CODE, find };
const CODE: Code = Code("rule-without-size");

fn find(case: &Case<'_>) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for edge in case.look.draft.edges.iter().filter(|edge| case.look.is_sound(&edge.place)) {
        let rule = &edge.value;
        let words = match rule.size {
            Some(SizeHint::Same) => "with a label",
            Some(SizeHint::Up) => "larger than any",
            Some(SizeHint::Down) => "smaller than any",
            // A label that the target lacks is an error of its own.
            None | Some(SizeHint::Label(_)) => continue,
        };
        let (Some(from), Some(to)) = (case.model(&rule.from), case.model(&rule.to)) else { continue };
        let are_sound = [from, to].iter().all(|model| case.look.is_sound(&model.place.key("shells")));
        let any = |(_, failed)| to.value.sizes().any(|(_, size)| allows_size(rule, failed, &to.value, size));
        if are_sound && !from.value.sizes().any(any) {
            let message = format!("{} has no size {words} of {}", to.value.name, from.value.name);
            let problem = Diagnostic::warning(CODE, message)
                .at(case.look.span(&edge.place.key("size")), "never there")
                .see(case.look.span(&to.place.key("id")), "the target")
                .help("name another size or another model, or leave `size` out");
            found.push(problem);
        }
    }
    found
}
