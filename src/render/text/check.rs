//! What a check of profiles found, for people.

use crate::check::Tally;
use crate::diag::{Diagnostic, Sources};
use crate::render::diagnostics::{Style, count, draw_all, numbered};
use itertools::Itertools;

/// The findings with the lines they stand on, and a line that sums up what was looked at.
#[must_use]
pub fn check(tally: &Tally, findings: &[Diagnostic], sources: &Sources) -> String {
    let looked_at = [(tally.models, "model"), (tally.rules, "rule"), (tally.populations, "population")];
    let looked_at = looked_at.iter().filter(|(number, _)| *number > 0).map(|(n, noun)| numbered(*n, noun)).join(", ");
    let with = if looked_at.is_empty() { "" } else { " with " };
    let result = if findings.is_empty() { "nothing to complain about".to_owned() } else { count(findings) };
    let drawing = draw_all(findings, sources, Style::Coloured);
    let lent = match (tally.has_lent, tally.files) {
        (false, _) | (_, 0) => "",
        _ => "Assumptions: those of the demo range, for want of a shop.yaml without problems\n",
    };
    format!("{drawing}{}{with}{looked_at}: {result}\n{lent}", numbered(tally.files, "file"))
}
