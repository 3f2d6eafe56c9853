//! `range`: who is served, and what would change.

use super::super::args::{TypedRangeFormat, TypedServed};
use super::super::resolve::asked;
use super::super::{Ending, Output};
use super::people::{counted, customers};
use crate::catalogue::Catalogue;
use crate::diag::{Diagnostic, Sources};
use crate::range::served;
use crate::render::{json, svg, text};

pub(super) fn answer(
    typed: &TypedServed,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Output, Vec<Diagnostic>> {
    let asked = asked(&typed.people, &typed.filter, catalogue, sources)?;
    let shelf = asked.shelf(catalogue);
    let counted = counted(&asked, &shelf, sources)?;
    let made = served(catalogue, &shelf, &counted, asked.seed);
    let customers = customers(&asked, &counted);
    let text = match typed.format {
        TypedRangeFormat::Text => text::served(catalogue, &customers, &made, text::RANGE_CAUTIONS),
        TypedRangeFormat::Json => json::text(&json::served(catalogue, &customers, &made, text::RANGE_CAUTIONS)),
        TypedRangeFormat::Svg => svg::range_map(&customers, &made.map).file(),
    };
    Ok(Output { text, ending: Ending::Done })
}
