//! Heads, counted.

use super::super::meter;
use super::super::resolve::{Asked, People};
use crate::diag::Diagnostic;
use crate::range::{Counted, Customers, Drawn, Shelf, count};

/// Counts the customers that were asked for on a shelf.
pub(super) fn counted(asked: &Asked<'_>, shelf: &Shelf<'_>) -> Result<Counted, Vec<Diagnostic>> {
    match &asked.people {
        People::Drawn(heads) => {
            let source = Drawn::new(asked.population, *heads, asked.seed);
            meter::shown(|tell| count(shelf, source, asked.threads, tell)).map_err(|_| Vec::new())
        }
        People::Table(_) => Err(Vec::new()),
    }
}

/// Whose heads were counted.
pub(super) fn customers<'a>(asked: &Asked<'a>, counted: &Counted) -> Customers<'a> {
    let table = match &asked.people {
        People::Drawn(_) => None,
        People::Table(path) => Some(path.to_string_lossy().into_owned()),
    };
    Customers { population: asked.population, table, count: counted.tally.heads(), seed: asked.seed }
}
