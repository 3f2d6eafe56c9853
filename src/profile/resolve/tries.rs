//! A list of customers who tried a new helmet.

use super::Checker;
use crate::diag::{Diagnostic, Said, SourceId};
use crate::profile::raw::TriesFile;
use crate::profile::yaml;

/// Reads such a list: the texts of the option, each with its place. What they mean is decided where options are, too.
pub fn tries(source: SourceId, text: &str) -> Result<Vec<Said>, Vec<Diagnostic>> {
    let (file, places) = yaml::read::<TriesFile>(source, text)?;
    let check = Checker::new(source, places, file.schema);
    let placed = |(at, text): (usize, String)| Said { text, span: check.span(&format!("tries[{at}]")) };
    let tries = file.tries.into_iter().enumerate().map(placed).collect();
    check.finish(tries)
}
