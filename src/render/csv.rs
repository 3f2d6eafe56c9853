//! Tables for spreadsheets: comma-separated values after RFC 4180.

mod windows;

pub use windows::windows;

use crate::journal::{Listed, Listing, Record, Round};
use crate::profile::Zone;
use itertools::Itertools;

const HEADER: [&str; 17] = [
    "journal",
    "line",
    "day",
    "customer",
    "try",
    "model",
    "size",
    "fit_probability",
    "round",
    "last",
    "outcome",
    "minutes",
    "brow_mm",
    "rear_mm",
    "sides_mm",
    "crown_mm",
    "cheeks_mm",
];

/// The tries of journals, a row for each round: pads, outcome and minutes belong to a round, and a row for each try
/// could hold the last of them only. Rows whose `last` is 1 are the tries.
///
/// What was measured is left out: how many readings there are differs, and whoever counts tries needs no measures of
/// heads.
#[must_use]
pub fn journal(listing: &Listing) -> String {
    let rows = listing.journals.iter().flat_map(|journal| {
        journal.tries.iter().flat_map(move |(line, record)| {
            record.rounds.iter().enumerate().map(move |(at, round)| row(journal, *line, record, (at, round)))
        })
    });
    std::iter::once(HEADER.map(str::to_owned).to_vec()).chain(rows).map(|row| written(&row)).collect()
}

fn row(journal: &Listed, line: usize, record: &Record, (at, round): (usize, &Round)) -> Vec<String> {
    let is_last = at + 1 == record.rounds.len();
    let mut cells = vec![
        text(&journal.name),
        line.to_string(),
        record.day.to_string(),
        record.customer.to_string(),
        record.number.to_string(),
        record.model.to_string(),
        record.size.to_string(),
        number(record.fit_probability),
        (at + 1).to_string(),
        u8::from(is_last).to_string(),
        round.reason.map_or("fits", |reason| reason.id()).to_owned(),
        number(Some(round.minutes)),
    ];
    cells.extend(Zone::ALL.map(|zone| number(*round.pads.get(zone))));
    cells
}

fn number(value: Option<f64>) -> String {
    value.map(|value| value.to_string()).unwrap_or_default()
}

/// A text that no spreadsheet takes for a formula. Only names of files need it: ids are letters, digits and hyphens
/// within, days and numbers begin with a digit.
fn text(name: &str) -> String {
    let name: String = name.chars().map(|c| if c.is_control() { char::REPLACEMENT_CHARACTER } else { c }).collect();
    if name.starts_with(['=', '+', '-', '@']) { format!("'{name}") } else { name }
}

fn written(cells: &[String]) -> String {
    let quoted = |cell: &String| match cell.contains([',', '"', '\r', '\n']) {
        true => format!("\"{}\"", cell.replace('"', "\"\"")),
        false => cell.clone(),
    };
    cells.iter().map(quoted).join(",") + "\r\n"
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case("shop.jsonl", "shop.jsonl\r\n")]
    #[case("a,b.jsonl", "\"a,b.jsonl\"\r\n")]
    #[case("a\"b.jsonl", "\"a\"\"b.jsonl\"\r\n")]
    #[case("=1+1", "'=1+1\r\n")]
    #[case("@x,y", "\"'@x,y\"\r\n")]
    #[case("two\nlines", "two\u{fffd}lines\r\n")]
    fn a_name_stays_in_its_cell(#[case] name: &str, #[case] expected: &str) {
        assert_eq!(written(&[text(name)]), expected);
    }
}
