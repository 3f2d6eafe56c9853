//! Heads, counted.

mod faults;

use super::super::meter;
use super::super::resolve::{Asked, People};
use super::super::terminal::Terminal;
use crate::diag::{Code, Diagnostic, Sources, nearest};
use crate::head::Measure;
use crate::range::{Counted, Drawn, Shelf, Table, count};
use faults::{diagnostics, unreadable};
use itertools::Itertools;
use std::fs::File;
use std::io::{Read, stdin};
use std::path::Path;

/// What standard input is called where a problem lies in it.
const INPUT: &str = "standard input";

/// Counts the customers that were asked for on a shelf.
pub(super) fn counted(asked: &Asked<'_>, shelf: &Shelf<'_>, sources: &mut Sources) -> Result<Counted, Vec<Diagnostic>> {
    match &asked.people {
        People::Drawn(heads) => {
            let source = Drawn::new(asked.population, *heads, asked.seed);
            let Ok(counted) = meter::shown(|tell| count(shelf, source, asked.threads, tell));
            Ok(counted)
        }
        People::Table(path) if path.as_os_str() == "-" => listed(asked, shelf, sources, INPUT, (stdin(), None)),
        People::Table(path) => {
            let name = path.to_string_lossy();
            let opened = opened(path).map_err(|fault| vec![unreadable(&name, &fault.to_string())])?;
            listed(asked, shelf, sources, &name, opened)
        }
    }
}

/// A file with its length, where it has one: a pipe has none.
fn opened(path: &Path) -> std::io::Result<(File, Option<u64>)> {
    let file = File::open(path)?;
    let about = file.metadata()?;
    Ok((file, about.is_file().then_some(about.len())))
}

/// Counts the heads of a table.
fn listed(
    asked: &Asked<'_>,
    shelf: &Shelf<'_>,
    sources: &mut Sources,
    name: &str,
    (bytes, length): (impl Read + Send, Option<u64>),
) -> Result<Counted, Vec<Diagnostic>> {
    let table = Table::open(bytes, length, asked.population, asked.seed);
    let table = table.map_err(|faults| diagnostics(&faults, name, sources))?;
    let others = table.other_columns().to_vec();
    let counted = meter::shown(|tell| count(shelf, table, asked.threads, tell));
    let counted = counted.map_err(|faults| diagnostics(&faults, name, sources))?;
    if counted.tally.heads() == 0 {
        let problem = Diagnostic::error(Code("table-empty"), format!("{name} has no heads"));
        return Err(vec![problem.help("each line below the names of the columns is a head")]);
    }
    Terminal.say(&told(asked, name, &counted, &others));
    Ok(counted)
}

/// What nobody measured and what wasn't read, if there is any of it.
fn told(asked: &Asked<'_>, name: &str, counted: &Counted, others: &[String]) -> String {
    let drawn = Measure::ALL.into_iter().zip(counted.drawn).filter(|(_, heads)| *heads > 0);
    let drawn = drawn.map(|(measure, heads)| format!("  {} of {heads}\n", measure.name())).collect_vec();
    let mut text = String::new();
    if !drawn.is_empty() {
        text +=
            &format!("{name}: {} heads. Not there, so drawn from {}:\n", counted.tally.heads(), asked.population.id);
        text += &drawn.concat();
    }
    let known = Measure::ALL.map(Measure::name);
    let unread = others.iter().map(|other| match nearest(&other.to_lowercase(), known) {
        Some(near) => format!("{other:?} (did you mean {near}?)"),
        None => format!("{other:?}"),
    });
    let unread = unread.take(MOST_NAMED).join(", ");
    if !unread.is_empty() {
        text += &format!("{name}: columns that were not read: {unread}\n");
    }
    text
}

/// How many columns are named that weren't read.
const MOST_NAMED: usize = 12;
