//! `range design`

use super::super::args::{TypedDesign, TypedPictureFormat};
use super::super::resolve::asked;
use super::super::{Ending, Output};
use super::people::counted;
use crate::catalogue::Catalogue;
use crate::diag::{Diagnostic, Sources};
use crate::range::design;
use crate::render::{html, json, svg, text};

pub(super) fn answer(
    typed: &TypedDesign,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Output, Vec<Diagnostic>> {
    let asked = asked(&typed.counted.people, &typed.counted.filter, catalogue, sources)?;
    let shelf = asked.shelf(catalogue);
    let counted = counted(&asked, &shelf, sources)?;
    let designs = design(&shelf, &counted.kept, catalogue, asked.seed);
    let (population, models) = (asked.population, asked.models.len());
    let pays = designs.best.as_ref().is_some_and(|best| best.pays);
    let cautions = text::DESIGN_CAUTIONS;
    let text = match typed.format {
        TypedPictureFormat::Text => text::range_design(catalogue, population, models, &designs, cautions),
        TypedPictureFormat::Json => json::text(&json::range_design(asked.seed, population, models, &designs, cautions)),
        TypedPictureFormat::Html => html::range_design(catalogue, population, models, &designs, cautions),
        TypedPictureFormat::Svg => svg::designs_by_shape(catalogue, &designs).file(),
    };
    Ok(Output { text, ending: if pays { Ending::Done } else { Ending::Findings } })
}
