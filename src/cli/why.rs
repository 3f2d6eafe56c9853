//! `plan --why`: a step of the plan, explained.

use super::args::{TypedPictureFormat, TypedPlan};
use super::plan::warnings;
use super::{Ending, Output};
use crate::catalogue::Catalogue;
use crate::fit::Candidate;
use crate::plan::{Found, Nowhere, NowhereKind, Query, explain};
use crate::profile::Reason;
use crate::render::json::{self, Warning};
use crate::render::{html, svg, text};

/// Explains the step that the plan reaches after these reasons.
pub(super) fn answer(typed: &TypedPlan, catalogue: &Catalogue, query: &Query<'_>, reasons: &[Reason]) -> Output {
    let (made, answer) = explain(catalogue, query, reasons);
    let mut warnings = warnings(catalogue, query, &made);
    if let Found::Nowhere(nowhere) = &answer.found {
        let end = text::end(query, answer.way.len());
        let message = message(&made.candidates[nowhere.candidate], nowhere, end);
        warnings.push(Warning { code: "no-step".to_owned(), message });
    }
    let ending = if warnings.is_empty() { Ending::Done } else { Ending::Findings };
    let explained = (&made, &answer);
    let text = match typed.format {
        TypedPictureFormat::Text => text::why(catalogue, query, explained, &warnings, text::PLAN_CAUTIONS),
        TypedPictureFormat::Json => {
            json::text(&json::why(catalogue, query, explained, (warnings, text::PLAN_CAUTIONS)))
        }
        TypedPictureFormat::Html => html::why(catalogue, query, explained, &warnings, text::PLAN_CAUTIONS),
        TypedPictureFormat::Svg => svg::why(catalogue, query, explained).file(),
    };
    Output { text, ending }
}

/// Why a reason leads to no step; `end` says why a plan ends there.
fn message(candidate: &Candidate<'_>, nowhere: &Nowhere, end: &str) -> String {
    let (title, words) = (candidate.title(), nowhere.reason.words());
    let id = format!("{}/{}", candidate.model.id, candidate.size.label);
    match nowhere.kind {
        NowhereKind::End => format!("The plan ends where {title} fails because {words}: {end}."),
        NowhereKind::Unheard => {
            format!("No such customer says of {title} that {words}: the plan has no step for it.")
        }
        NowhereKind::NoRule => format!(
            "No measure tells that {words}, and the shop has no rule for it beside {title} that helps: the plan has no \
             step for it."
        ),
        NowhereKind::Stop => format!(
            "{title} is out at once, whatever the pads: {words}. No step follows from that; plan anew with \
             --out-of-stock {id}."
        ),
        NowhereKind::BesideThePlan => format!(
            "{title} stands beside the plan, by a rule of the shop, and nothing follows it there. If {words}, plan anew \
             with --out-of-stock {id}."
        ),
    }
}
