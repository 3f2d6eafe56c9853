//! `away`: customers who measure at home.

use super::args::{TypedAway, TypedAwayTask, TypedOrder, TypedPageFormat, TypedSheetFormat};
use super::plan::head_warnings;
use super::resolve::asked_from_home;
use super::{Ending, Output};
use crate::away::{Verdict, order, sheet};
use crate::catalogue::Catalogue;
use crate::diag::{Diagnostic, Sources};
use crate::render::{html, json, text};

pub(super) fn answer(
    typed: &TypedAway,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Output, Vec<Diagnostic>> {
    match &typed.task {
        TypedAwayTask::Order(typed) => order_answer(typed, catalogue, sources),
        TypedAwayTask::Sheet(typed) => {
            let sheet = sheet(catalogue);
            let text = match typed.format {
                TypedSheetFormat::Text => text::sheet(&sheet),
                TypedSheetFormat::Html => html::sheet(&sheet),
            };
            Ok(Output { text, ending: Ending::Done })
        }
    }
}

fn order_answer(typed: &TypedOrder, catalogue: &Catalogue, sources: &mut Sources) -> Result<Output, Vec<Diagnostic>> {
    let (ask, mut warnings) = asked_from_home(typed, catalogue, sources)?;
    let made = order(catalogue, &ask);
    warnings.extend(head_warnings(catalogue, &ask.customer, &made.head));
    let is_order = made.verdict != Verdict::ComeIn;
    let ending = if is_order && warnings.is_empty() { Ending::Done } else { Ending::Findings };
    let text = match typed.format {
        TypedPageFormat::Text => text::away(catalogue, &ask, &made, &warnings, text::AWAY_CAUTIONS),
        TypedPageFormat::Json => json::text(&json::away(catalogue, &ask, &made, (warnings, text::AWAY_CAUTIONS))),
        TypedPageFormat::Html => html::away(catalogue, &ask, &made, &warnings, text::AWAY_CAUTIONS),
    };
    Ok(Output { text, ending })
}
