//! A list of customers who tried a new helmet.

use super::{Checker, resolve};
use crate::diag::{Diagnostic, Said, SourceId};
use crate::profile::raw::TriesFile;
use crate::profile::yaml;

/// As many customers as a busy month brings for one model.
const MOST_TRIES: usize = 1000;

/// Reads such a list: the texts of the option, each with its place. What they mean is decided where options are, too.
///
/// # Errors
///
/// Every problem of the text.
pub fn tries(source: SourceId, text: &str) -> Result<Vec<Said>, Vec<Diagnostic>> {
    let document = yaml::read::<TriesFile>(source, text);
    resolve(source, document, |file| file.schema, |check, file| Some(said(check, file))).trusted()
}

fn said(check: &mut Checker<'_>, mut file: TriesFile) -> Vec<Said> {
    check.bounded("tries", &mut file.tries, MOST_TRIES, "tries");
    let placed = |(at, text): (usize, String)| Said { text, span: check.span(&format!("tries[{at}]")) };
    file.tries.into_iter().enumerate().map(placed).collect()
}
