//! `fallbacks audit`: the shop's rules weighed against the computation.

use super::args::{TypedAudit, TypedPageFormat};
use super::resolve::question;
use super::{Ending, Output, meter};
use crate::audit::audit;
use crate::catalogue::Catalogue;
use crate::diag::{Diagnostic, Sources};
use crate::render::{html, json, text};

pub(super) fn answer(
    typed: &TypedAudit,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Output, Vec<Diagnostic>> {
    let question = question(&typed.question, catalogue, sources)?;
    let made = meter::shown(|tell| audit(catalogue, &question, tell));
    let ending = if made.misleading.is_empty() { Ending::Done } else { Ending::Findings };
    let text = match typed.format {
        TypedPageFormat::Text => text::audit(catalogue, &question, &made, text::AUDIT_CAUTIONS),
        TypedPageFormat::Json => json::text(&json::audit(catalogue, &question, &made, text::AUDIT_CAUTIONS)),
        TypedPageFormat::Html => html::audit(catalogue, &question, &made, text::AUDIT_CAUTIONS),
    };
    Ok(Output { text, ending })
}
