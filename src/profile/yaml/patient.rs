//! Decodes the tree of the first pass and goes on after a problem, so that one run tells them all.
//!
//! A value of the wrong kind is noted, and a harmless value of the right kind takes its place. What only the
//! type itself can tell (a key is missing, a number is out of range) ends a round; the next round knows of it,
//! fills it in and gets further. Which keys are missing would take a round each, so that the type is asked once
//! which keys it can't do without, away from the document. `serde_yaml` is not asked: its tree has lost how scalars
//! were written.

mod access;
mod decoder;
mod fault;
mod filler;
mod ledger;
mod probe;
mod shapes;

use super::places::{Places, ROOT};
use crate::diag::Diagnostic;
use decoder::Decoder;
use ledger::Ledger;
use serde::de::DeserializeOwned;

/// How many values are decoded in all rounds together; a fraction of a second.
const MOST_WORK: usize = 2_000_000;

/// How many rounds there are at most.
const MOST_ROUNDS: usize = 300;

/// The document as far as it is a `T`, with harmless values in place of what can't be read, and every problem as far as
/// it can be told; that there are more, where there are. `None` where even harmless values are no use, or where the
/// entries of a list are no longer those of the text.
pub(super) fn read<T: DeserializeOwned>(places: &Places<'_>, problems: &mut Vec<Diagnostic>) -> Option<T> {
    let ledger = Ledger::new(places);
    let rounds = (MOST_WORK / places.len().max(1)).clamp(2, MOST_ROUNDS);
    let mut value = None;
    for round in 1.. {
        let fault = match T::deserialize(Decoder::new(&ledger, ROOT)) {
            Ok(read) => {
                value = (!ledger.has_dropped()).then_some(read);
                break;
            }
            Err(fault) => fault.at(ROOT),
        };
        if round == 1 {
            probe::ask::<T>(&ledger.shapes);
        }
        if round == rounds {
            ledger.give_in(fault);
            break;
        }
        if !ledger.settle(fault) {
            break;
        }
    }
    problems.extend(ledger.into_problems());
    value
}
