//! Heads, counted.

mod faults;

use super::super::meter;
use super::super::resolve::{Asked, People};
use super::super::terminal::Terminal;
use crate::diag::{Code, Diagnostic, Sources, nearest};
use crate::head::Measure;
use crate::range::{Counted, Customers, Drawn, Shelf, Table, count};
use crate::render::diagnostics::one_line;
use faults::{diagnostics, unreadable};
use itertools::Itertools;
use std::fs::File;
use std::io::{Read, stdin};
use std::path::Path;

/// What standard input is called where a problem lies in it.
const INPUT: &str = "standard input";

/// Counts the customers that were asked for on a shelf.
pub(in crate::cli) fn counted(
    asked: &Asked<'_>,
    shelf: &Shelf<'_>,
    sources: &mut Sources,
) -> Result<Counted, Vec<Diagnostic>> {
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

/// Whose heads were counted.
pub(in crate::cli) fn customers<'a>(asked: &Asked<'a>, counted: &Counted) -> Customers<'a> {
    let table = match &asked.people {
        People::Drawn(_) => None,
        People::Table(path) if path.as_os_str() == "-" => Some(format!("on {INPUT}")),
        People::Table(path) => Some(path.to_string_lossy().into_owned()),
    };
    Customers {
        population: asked.population,
        table,
        count: counted.tally.heads(),
        drawn: counted.drawn,
        seed: asked.seed,
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
    let (name, heads, population) = (one_line(name), counted.tally.heads(), &asked.population.id);
    let mut text = String::new();
    let drawn = Measure::ALL.into_iter().zip(counted.drawn).filter(|(_, drawn)| *drawn > 0);
    for (measure, drawn) in drawn {
        text += &format!("{name}: {} drawn from `{population}` for {drawn} of {heads} heads\n", measure.name());
    }
    if !others.is_empty() {
        text += &format!(
            "{name}: columns not read: {}\n",
            others.iter().take(MOST_NAMED).map(|name| other(name)).join(", ")
        );
    }
    text
}

/// A column that isn't read, and the measure that it may have been meant for.
fn other(name: &str) -> String {
    let shown: String = name.chars().take(MOST_SHOWN).flat_map(char::escape_debug).collect();
    match nearest(&name.to_lowercase(), Measure::ALL.map(Measure::name)) {
        Some(near) => format!("`{shown}` (did you mean `{near}`?)"),
        None => format!("`{shown}`"),
    }
}

/// How many columns are named that weren't read.
const MOST_NAMED: usize = 12;

/// How many characters of a name are shown.
const MOST_SHOWN: usize = 40;
