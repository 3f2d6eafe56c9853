//! `range` with `--drop`, `--add` or `--without-pads`: what would change.

use super::super::args::{TypedRangeFormat, TypedServed};
use super::super::resolve::{alterations, asked};
use super::super::{Ending, Output};
use super::people::{counted, customers};
use crate::catalogue::Catalogue;
use crate::diag::{Code, Diagnostic, Sources};
use crate::range::WhatIf;
use crate::render::{json, text};

pub(super) fn answer(
    typed: &TypedServed,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Output, Vec<Diagnostic>> {
    if typed.format == TypedRangeFormat::Svg {
        let help = "ask for text or json here, or for the drawing without --drop, --add and --without-pads";
        return Err(vec![Diagnostic::error(Code("no-drawing"), "there is no drawing of what would change").help(help)]);
    }
    let asked = asked(&typed.people, &typed.filter, catalogue, sources)?;
    let alterations = alterations(&typed.change, &asked, catalogue, sources)?;
    let range = asked.shelf(catalogue).columns;
    let what_if = WhatIf::new(range, &alterations, &asked.absent, catalogue);
    let counted = counted(&asked, &what_if.shelf, sources)?;
    let changed = what_if.changed(&counted, catalogue.shop.words, asked.seed);
    let customers = customers(&asked, &counted);
    let text = match typed.format {
        TypedRangeFormat::Json => {
            json::text(&json::range_change(&customers, &alterations, &changed, text::RANGE_CAUTIONS))
        }
        TypedRangeFormat::Text | TypedRangeFormat::Svg => {
            text::range_change(&customers, &alterations, &changed, text::RANGE_CAUTIONS)
        }
    };
    Ok(Output { text, ending: Ending::Done })
}
