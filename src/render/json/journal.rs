//! `lidladder.journal/1`: the tries of journals. `lidladder.verify/1`: what is wrong with them.

use super::check::{Finding, told};
use super::common::round;
use crate::diag::{Diagnostic, Sources};
use crate::journal::{Ended, Listed, Listing, Record, Totals, TryBody, minutes};
use schemars::JsonSchema;
use serde::Serialize;

/// Tries, all of them or those that were asked for.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "Tries listed by lidladder", extend("$id" = "urn:lidladder:journal:1"))]
pub struct JournalDocument {
    /// `lidladder.journal/1`.
    #[schemars(extend("const" = "lidladder.journal/1"))]
    schema: String,
    /// One for each file.
    journals: Vec<JournalBody>,
    totals: TotalsBody,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct JournalBody {
    file: String,
    /// How many lines of the file are no records.
    bad_lines: usize,
    /// In the order of the file.
    tries: Vec<ListedTry>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ListedTry {
    /// The number of its line in the file, from 1.
    line: usize,
    /// fits, or the id of the reason.
    outcome: Option<String>,
    /// Of all rounds together.
    minutes: f64,
    /// What the line says.
    record: TryBody,
}

/// Of the listed tries.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct TotalsBody {
    /// The same number in two files is two customers.
    customers: usize,
    tries: usize,
    /// Tries that ended with a good fit.
    fits: usize,
    minutes: f64,
    /// The earliest day; null without a try.
    first_day: Option<String>,
    last_day: Option<String>,
    /// Of the whole files, listed or not.
    bad_lines: usize,
}

/// What is wrong or doubtful in journals.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "Journals verified by lidladder", extend("$id" = "urn:lidladder:verify:1"))]
pub struct VerifyDocument {
    /// `lidladder.verify/1`.
    #[schemars(extend("const" = "lidladder.verify/1"))]
    schema: String,
    files: usize,
    /// Lines that are records.
    tries: usize,
    errors: usize,
    warnings: usize,
    /// File by file, in the order of their lines.
    findings: Vec<Finding>,
}

/// The document of a listing.
#[must_use]
pub fn journal(listing: &Listing) -> JournalDocument {
    JournalDocument {
        schema: "lidladder.journal/1".to_owned(),
        journals: listing.journals.iter().map(JournalBody::of).collect(),
        totals: TotalsBody::of(&listing.totals),
    }
}

/// The document of what was found in journals.
#[must_use]
pub fn verified(files: usize, tries: usize, findings: &[Diagnostic], sources: &Sources) -> VerifyDocument {
    let errors = findings.iter().filter(|finding| finding.is_error()).count();
    VerifyDocument {
        schema: "lidladder.verify/1".to_owned(),
        files,
        tries,
        errors,
        warnings: findings.len() - errors,
        findings: findings.iter().map(|finding| told(finding, sources)).collect(),
    }
}

impl JournalBody {
    fn of(journal: &Listed) -> Self {
        Self {
            file: journal.name.clone(),
            bad_lines: journal.bad_lines,
            tries: journal.tries.iter().map(|(line, record)| ListedTry::of(*line, record)).collect(),
        }
    }
}

impl ListedTry {
    fn of(line: usize, record: &Record) -> Self {
        Self {
            line,
            outcome: Ended::of(record).map(|ended| ended.id().to_owned()),
            minutes: round(minutes(record), 2),
            record: TryBody::of(record),
        }
    }
}

impl TotalsBody {
    fn of(totals: &Totals) -> Self {
        Self {
            customers: totals.customers,
            tries: totals.tries,
            fits: totals.fits,
            minutes: round(totals.minutes, 2),
            first_day: totals.days.map(|(first, _)| first.to_string()),
            last_day: totals.days.map(|(_, last)| last.to_string()),
            bad_lines: totals.bad_lines,
        }
    }
}
