//! Heads, counted.

use super::super::meter;
use super::super::resolve::{Asked, People};
use crate::diag::Diagnostic;
use crate::range::{Counted, Drawn, Shelf, count};

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
