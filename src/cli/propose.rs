//! `fallbacks propose`: a graph from the computation.

use super::args::TypedAudit;
use super::meter::Meter;
use super::resolve::Resolver;
use super::{Ending, Output};
use crate::audit::propose;
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
    let made = propose(catalogue, &question, &mut |progress| meter.show(progress));
    meter.clear();
    let yaml = text::proposal(catalogue, &question, &made, text::AUDIT_CAUTIONS);
    let text = if typed.common.format.is_json() {
        json::text(&json::proposal(catalogue, &question, &made, (yaml, text::AUDIT_CAUTIONS)))
    } else {
        yaml
    };
    Ok(Output { text, ending: Ending::Done })
}
