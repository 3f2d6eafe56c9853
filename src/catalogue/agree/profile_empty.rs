//! A set without a helmet. (A model without a shell, and a shell without a size, are found where they are read.)

use super::Agreement;
use crate::catalogue::{FileKind, Look};
use crate::diag::{Code, Diagnostic};

pub(super) const AGREEMENT: Agreement = Agreement { code: CODE, find };
const CODE: Code = Code("profile-empty");

fn find(look: &Look<'_>) -> Vec<Diagnostic> {
    let draft = look.draft;
    if !draft.models.is_empty() || draft.hidden.contains(&FileKind::Helmets) || look.has_problems_in(FileKind::Helmets)
    {
        return Vec::new();
    }
    let help = "write at least one family of helmets into the folder helmets";
    vec![Diagnostic::error(CODE, "these profiles have no helmet").help(help)]
}
