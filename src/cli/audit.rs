//! `fallbacks audit`: the shop's rules weighed against the computation.

use super::args::TypedAudit;
use super::resolve::question;
use super::{Ending, Output, meter};
use crate::audit::audit;
use crate::catalogue::Catalogue;
use crate::diag::{Diagnostic, Sources};
use crate::render::{json, text};

pub(super) fn answer(
    typed: &TypedAudit,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Output, Vec<Diagnostic>> {
    let question = question(typed, catalogue, sources)?;
    let made = meter::shown(|tell| audit(catalogue, &question, tell));
    let ending = if made.misleading.is_empty() { Ending::Done } else { Ending::Findings };
    let text = if typed.format.is_json() {
        json::text(&json::audit(catalogue, &question, &made, text::AUDIT_CAUTIONS))
    } else {
        text::audit(catalogue, &question, &made, text::AUDIT_CAUTIONS)
    };
    Ok(Output { text, ending })
}
