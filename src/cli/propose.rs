//! `fallbacks propose`: rules from the computation.

use super::Output;
use super::args::TypedAudit;
use crate::catalogue::Catalogue;
use crate::diag::{Diagnostic, Sources};

pub(super) fn answer(
    typed: &TypedAudit,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Output, Vec<Diagnostic>> {
    let _ = (typed, catalogue, sources);
    Err(Vec::new())
}
