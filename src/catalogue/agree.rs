//! What the files of a set must agree about before anything can be computed from them, one rule a file.

mod currency_mismatch;
mod profile_duplicate;
mod profile_empty;
mod profile_too_many;
mod unknown_model;
mod unknown_population;
mod unknown_size;

use super::Look;
use crate::diag::{Code, Diagnostic, known_here};
use crate::profile::Place;

/// One rule about profiles.
#[derive(Debug, Clone, Copy)]
pub struct Agreement {
    /// The code of its findings; `docs/diagnostics.md` has a section of this name.
    pub code: Code,
    /// Everything that goes against it.
    pub find: fn(&Look<'_>) -> Vec<Diagnostic>,
}

/// The rules without which a set is none.
pub const AGREEMENTS: &[Agreement] = &[
    currency_mismatch::AGREEMENT,
    profile_duplicate::AGREEMENT,
    profile_empty::AGREEMENT,
    profile_too_many::AGREEMENT,
    unknown_model::AGREEMENT,
    unknown_population::AGREEMENT,
    unknown_size::AGREEMENT,
];

/// A name that nothing defines, with the nearest of those that are defined.
fn unknown<'n>(
    look: &Look<'_>,
    code: Code,
    (what, name): (&str, &str),
    place: &Place,
    known: impl IntoIterator<Item = &'n str>,
) -> Diagnostic {
    let known: Vec<&str> = known.into_iter().collect();
    let help = if known.is_empty() { format!("no {what} is defined here") } else { known_here(name, &known) };
    Diagnostic::error(code, format!("there is no {what} `{name}`")).at(look.span(place), "not defined").help(help)
}
