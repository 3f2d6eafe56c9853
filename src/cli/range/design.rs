//! `range design`

use super::super::args::TypedDesign;
use super::super::resolve::asked;
use super::super::{Ending, Output};
use super::people::counted;
use crate::catalogue::Catalogue;
use crate::diag::{Diagnostic, Sources};
use crate::range::design;

pub(super) fn answer(
    typed: &TypedDesign,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Output, Vec<Diagnostic>> {
    let asked = asked(&typed.people, &typed.filter, catalogue, sources)?;
    let shelf = asked.shelf(catalogue);
    let counted = counted(&asked, &shelf)?;
    let designs = design(&shelf, &counted.kept, catalogue, asked.seed);
    let text = format!("{designs:#?}\n");
    Ok(Output { text, ending: Ending::Done })
}
