//! More models or sizes than a set may have: every size is tried on every head. (Lists that are too long are found where
//! they are read.)

use super::Agreement;
use crate::catalogue::Look;
use crate::diag::{Code, Diagnostic};

pub(super) const AGREEMENT: Agreement = Agreement { code: CODE, find };
const CODE: Code = Code("profile-too-many");

const MOST_MODELS: usize = 1000;
const MOST_SIZES: usize = 8000;

fn find(look: &Look<'_>) -> Vec<Diagnostic> {
    let models = &look.draft.models;
    let sizes = models.iter().map(|model| model.value.sizes().count()).sum();
    let counted = [("models", models.len(), MOST_MODELS), ("sizes", sizes, MOST_SIZES)].into_iter();
    let too_many = counted.filter(|(_, count, most)| count > most).map(|(what, count, most)| {
        Diagnostic::error(CODE, format!("these profiles have {count} {what}, but at most {most} are read"))
            .help("leave out the files of families that are no longer sold")
    });
    too_many.collect()
}
