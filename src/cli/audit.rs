//! `fallbacks audit`: the shop's rules weighed against the computation.

use super::args::TypedAudit;
use super::meter::Meter;
use super::resolve::Resolver;
use super::{Ending, Output};
use crate::audit::audit;
use crate::catalogue::Catalogue;
use crate::diag::{Diagnostic, Sources};
use crate::render::{json, text};

pub(super) fn answer(
    typed: &TypedAudit,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Output, Vec<Diagnostic>> {
    let mut resolver = Resolver::default();
    let question = resolver.question(typed, catalogue, sources);
    let question = resolver.finish(question)?;
    let mut meter = Meter::default();
    let made = audit(catalogue, &question, &mut |progress| meter.show(progress));
    meter.clear();
    let ending = if made.misleading.is_empty() { Ending::Done } else { Ending::Findings };
    let text = if typed.common.format.is_json() {
        json::text(&json::audit(catalogue, &question, &made, text::AUDIT_CAUTIONS))
    } else {
        text::audit(catalogue, &question, &made, text::AUDIT_CAUTIONS)
    };
    Ok(Output { text, ending })
}
