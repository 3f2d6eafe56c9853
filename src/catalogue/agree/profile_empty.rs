//! A set without a helmet, or without the shop's assumptions. (A model without a shell, and a shell without a size, are
//! found where they are read.)

use super::Agreement;
use crate::catalogue::{FileKind, Look};
use crate::diag::{Code, Diagnostic};

pub(super) const AGREEMENT: Agreement = Agreement { code: CODE, find };
const CODE: Code = Code("profile-empty");

fn find(look: &Look<'_>) -> Vec<Diagnostic> {
    let draft = look.draft;
    let is_told = |kind| draft.hidden.contains(&kind) || look.has_problems_in(kind);
    let mut found = Vec::new();
    if draft.models.is_empty() && !is_told(FileKind::Helmets) {
        let help = "write at least one family of helmets into the folder helmets";
        found.push(Diagnostic::error(CODE, "these profiles have no helmet").help(help));
    }
    if draft.shop.is_none() && !is_told(FileKind::Shop) {
        let help = "write the shop's assumptions into it; compare with the built-in range";
        found.push(Diagnostic::error(CODE, "these profiles have no shop.yaml").help(help));
    }
    found
}
