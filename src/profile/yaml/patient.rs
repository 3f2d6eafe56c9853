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

/// The document as far as it is a `T`, with harmless values in place of what can't be read, and every problem that
/// can be told. `None` where even these are no use, or where the entries of a list are no longer those of the text.
pub(super) fn read<T: DeserializeOwned>(places: &Places<'_>, problems: &mut Vec<Diagnostic>) -> Option<T> {
    let ledger = Ledger::new(places);
    let rounds = (MOST_WORK / places.len().max(1)).clamp(1, MOST_ROUNDS);
    let mut value = None;
    for _ in 0..rounds {
        let fault = match T::deserialize(Decoder::new(&ledger, ROOT)) {
            Ok(read) => {
                value = (!ledger.has_dropped()).then_some(read);
                break;
            }
            Err(fault) => fault,
        };
        if !ledger.settle(fault.at(ROOT)) {
            break;
        }
    }
    problems.extend(ledger.into_problems());
    value
}
