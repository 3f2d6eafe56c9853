//! Journals, for people: their tries as a table, and what is wrong with them.

use super::page::{Page, fixed, whole_minutes};
use crate::diag::{Diagnostic, Sources};
use crate::journal::{Ended, Listed, Listing, Record, Totals, minutes};
use crate::render::diagnostics::{Style, count, draw_all, numbered, one_line};
use itertools::Itertools;

/// Columns of a model's id.
const MODEL: usize = 21;

/// The tries of journals, and what they add up to.
#[must_use]
pub fn journal(listing: &Listing) -> String {
    let mut page = Page::default();
    for journal in &listing.journals {
        table(&mut page, journal);
    }
    page.heading("IN ALL");
    page.wrapped("  ", &sum(&listing.totals));
    page.finish()
}

/// What is wrong or doubtful, each with its line, and a line that sums up what was looked at.
#[must_use]
pub fn verified(files: usize, tries: usize, findings: &[Diagnostic], sources: &Sources) -> String {
    let result = if findings.is_empty() { "nothing to complain about".to_owned() } else { count(findings) };
    let drawing = draw_all(findings, sources, Style::Coloured);
    format!("{drawing}{} with {}: {result}\n", numbered(files, "file"), tries_of(tries))
}

fn table(page: &mut Page, journal: &Listed) {
    page.heading(&format!("JOURNAL {}", one_line(&journal.name)));
    if !journal.tries.is_empty() {
        page.line("day        customer try  model                 size  outcome           pads  min");
    }
    for (_, record) in &journal.tries {
        page.line(&row(record));
    }
    if journal.tries.is_empty() {
        page.line("  no such try");
    }
    if journal.bad_lines > 0 {
        let are = match journal.bad_lines {
            1 => "1 line is no record".to_owned(),
            lines => format!("{lines} lines are no records"),
        };
        let warning = format!("{are}: lidladder journal verify tells which and why");
        page.warnings(std::iter::once(warning.as_str()));
    }
}

fn row(record: &Record) -> String {
    let id = record.model.as_str();
    let model = if id.len() > MODEL { format!("{}…", &id[..MODEL - 1]) } else { id.to_owned() };
    let outcome = Ended::of(record).map_or("", Ended::id);
    format!(
        "{} {:>8} {:>3}  {} {:<4}  {:<19}{:>3} {:>4}",
        record.day,
        record.customer,
        record.number,
        fixed(&model, MODEL),
        record.size,
        outcome,
        record.rounds.len().saturating_sub(1),
        whole_minutes(minutes(record)),
    )
}

/// `2 customers, 3 tries, 2 of them good fits, 44 minutes, from 2026-03-14 to 2026-03-15`
fn sum(totals: &Totals) -> String {
    let fits = if totals.fits == 1 { "1 good fit".to_owned() } else { format!("{} good fits", totals.fits) };
    let days = totals.days.map(|(first, last)| match first == last {
        true => format!("on {first}"),
        false => format!("from {first} to {last}"),
    });
    let bad = (totals.bad_lines > 0).then(|| numbered(totals.bad_lines, "bad line"));
    let parts = [
        Some(numbered(totals.customers, "customer")),
        Some(tries_of(totals.tries)),
        Some(fits),
        Some(format!("{} minutes", whole_minutes(totals.minutes))),
        days,
        bad,
    ];
    parts.into_iter().flatten().join(", ")
}

fn tries_of(number: usize) -> String {
    if number == 1 { "1 try".to_owned() } else { format!("{number} tries") }
}
