//! `fallbacks propose`: a graph from the computation.

use super::args::TypedPropose;
use super::resolve::question;
use super::{Ending, Output, meter};
use crate::audit::propose;
use crate::catalogue::Catalogue;
use crate::diag::{Diagnostic, Sources};
use crate::render::{json, text};

pub(super) fn answer(
    typed: &TypedPropose,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Output, Vec<Diagnostic>> {
    let question = question(&typed.question, catalogue, sources)?;
    let made = meter::shown(|tell| propose(catalogue, &question, tell));
    let yaml = text::proposal(catalogue, &question, &made, text::AUDIT_CAUTIONS);
    let text = if typed.format.is_json() {
        json::text(&json::proposal(catalogue, &question, &made, (yaml, text::AUDIT_CAUTIONS)))
    } else {
        yaml
    };
    Ok(Output { text, ending: Ending::Done })
}
