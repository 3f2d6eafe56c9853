//! `lidladder.check/1`: what a check of profiles found.

use crate::check::Tally;
use crate::diag::{Diagnostic, Label, Severity, Sources};
use schemars::JsonSchema;
use serde::Serialize;

/// The document of `check`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CheckDocument {
    #[schemars(extend("const" = "lidladder.check/1"))]
    schema: &'static str,
    checked: Checked,
    errors: usize,
    warnings: usize,
    /// In order of place; findings without a place come first.
    findings: Vec<Finding>,
}

/// What was looked at.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Checked {
    files: usize,
    models: usize,
    /// Rules of the shop.
    rules: usize,
    populations: usize,
    /// Whether the demo range lent its assumptions, because there were none that could be used.
    with_lent_assumptions: bool,
}

#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Finding {
    /// Its stable name: a section of the documentation of diagnostics.
    code: &'static str,
    severity: SeverityWord,
    /// What is wrong, in one sentence.
    message: String,
    /// Where it is; null for something that has no place, such as a missing file.
    place: Option<Place>,
    /// Places that explain it.
    related: Vec<Place>,
    /// What to do about it.
    help: Option<String>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum SeverityWord {
    Error,
    Warning,
}

/// A stretch of a file. Lines and columns count from 1, columns in characters; the end is one past the last one.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Place {
    file: String,
    line: usize,
    column: usize,
    end_line: usize,
    end_column: usize,
    /// What to see there; may be empty.
    label: String,
}

/// The document of a check.
#[must_use]
pub fn check(tally: &Tally, findings: &[Diagnostic], sources: &Sources) -> CheckDocument {
    let errors = findings.iter().filter(|finding| finding.is_error()).count();
    CheckDocument {
        schema: "lidladder.check/1",
        checked: Checked {
            files: tally.files,
            models: tally.models,
            rules: tally.rules,
            populations: tally.populations,
            with_lent_assumptions: tally.has_lent,
        },
        errors,
        warnings: findings.len() - errors,
        findings: findings.iter().map(|finding| told(finding, sources)).collect(),
    }
}

pub(super) fn told(finding: &Diagnostic, sources: &Sources) -> Finding {
    Finding {
        code: finding.code.0,
        severity: match finding.severity {
            Severity::Error => SeverityWord::Error,
            Severity::Warning => SeverityWord::Warning,
        },
        message: finding.message.clone(),
        place: finding.place.as_ref().map(|label| place(label, sources)),
        related: finding.related.iter().map(|label| place(label, sources)).collect(),
        help: finding.help.clone(),
    }
}

fn place(label: &Label, sources: &Sources) -> Place {
    let (line, column) = sources.line_column(label.span);
    let (end_line, end_column) = sources.line_column(label.span.end());
    let file = sources.get(label.span.source).name.clone();
    Place { file, line, column, end_line, end_column, label: label.text.clone() }
}
