//! Decodes the tree of the first pass and goes on after a problem, so that one run tells them all.
//!
//! A value of the wrong kind is noted, and a harmless value of the right kind takes its place. What only the
//! type itself can tell (a key is missing, a number is out of range) ends a round; the next round knows of it,
//! fills it in and gets further. `serde_yaml` is not asked again: its tree has lost how scalars were written.

mod access;
mod decoder;
mod fault;
mod filler;
mod ledger;

use super::places::{Places, ROOT};
use crate::diag::Diagnostic;
use decoder::Decoder;
use ledger::Ledger;
use serde::de::DeserializeOwned;

/// How many values are decoded in all rounds together; a fraction of a second.
const MOST_WORK: usize = 4_000_000;

/// How many rounds there are at most.
const MOST_ROUNDS: usize = 100;

/// Every problem that keeps the document from being a `T`, as far as it can be told.
pub(super) fn problems<T: DeserializeOwned>(places: &Places<'_>) -> Vec<Diagnostic> {
    let ledger = Ledger::new(places);
    let rounds = (MOST_WORK / places.len().max(1)).clamp(1, MOST_ROUNDS);
    for _ in 0..rounds {
        let Err(fault) = T::deserialize(Decoder::new(&ledger, ROOT)) else { break };
        if !ledger.settle(fault.at(ROOT)) {
            break;
        }
    }
    ledger.into_problems()
}
