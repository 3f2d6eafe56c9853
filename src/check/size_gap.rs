//! A hole in a ladder: heads between two labels get no size of this model.

use super::parts::ladder;
use super::{Case, Rule};
use crate::diag::{Code, Diagnostic};
use itertools::Itertools;

pub(super) const RULE: Rule = Rule { code: CODE, find };
const CODE: Code = Code("size-gap");

fn find(case: &Case<'_>) -> Vec<Diagnostic> {
    let trusted = case.trusted;
    let step = trusted.shop.checking.label_step;
    let mut found = Vec::new();
    for model in &case.look.draft.models {
        for (smaller, larger) in ladder(case, model).iter().tuple_windows() {
            let (below, above) = (smaller.value.circumference.1, larger.value.circumference.0);
            if above - below > step + 1e-6 {
                let message = format!(
                    "{} has no size between {} cm ({}) and {} cm ({})",
                    model.value.name,
                    below / 10.0,
                    smaller.value.label,
                    above / 10.0,
                    larger.value.label
                );
                let problem = Diagnostic::warning(CODE, message)
                    .at(case.look.span(&larger.place.key("circumference_cm")), "begins here")
                    .see(case.look.span(&smaller.place.key("circumference_cm")), "the size below ends here")
                    .help("correct a label, or write down the size that is missing");
                found.push(problem);
            }
        }
    }
    found
}
