//! A file in the folder that nothing reads: what stands in it is in no plan.

use super::{Case, Rule};
use crate::diag::{Code, Diagnostic};

pub(super) const RULE: Rule = Rule { code: CODE, find };
const CODE: Code = Code("unused-file");

fn find(case: &Case<'_>) -> Vec<Diagnostic> {
    let told = |name: &String| {
        Diagnostic::warning(CODE, format!("nothing reads {name}")).help(
            "read are shop.yaml, fallbacks.yaml and the .yaml and .yml files in helmets and populations; move it there, or out of \
             the folder",
        )
    };
    case.look.draft.unread.iter().map(told).collect()
}
