//! A pack in which no pad is sold: a pad lost its `pack:`, or the pack is no longer made.

use super::parts::shells;
use super::{Case, Rule};
use crate::diag::{Code, Diagnostic};
use crate::profile::Supply;

pub(super) const RULE: Rule = Rule { code: CODE, find };
const CODE: Code = Code("empty-pack");

fn find(case: &Case<'_>) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for model in &case.look.draft.models {
        for shell in shells(model).filter(|shell| case.look.is_sound(&shell.place.key("pads"))) {
            for (at, pack) in shell.value.packs.iter().enumerate() {
                let place = shell.place.key("packs").entry(at).key("id");
                let is_used = shell.value.pads.iter().any(|pad| matches!(pad.supply, Supply::Pack(used) if used == at));
                if !is_used && case.look.is_sound(&place) {
                    let problem = Diagnostic::warning(CODE, format!("no pad is sold in the pack `{}`", pack.id))
                        .at(case.look.span(&place), "holds nothing")
                        .help(format!("write `pack: {}` at the pads that it holds, or take it out", pack.id));
                    found.push(problem);
                }
            }
        }
    }
    found
}
