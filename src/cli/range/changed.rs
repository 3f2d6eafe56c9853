//! `range` with `--drop`, `--add` or `--without-pads`: what would change.

use super::super::args::{TypedPictureFormat, TypedServed};
use super::super::resolve::{alterations, asked};
use super::super::{Ending, Output};
use super::people::{counted, customers};
use crate::catalogue::Catalogue;
use crate::diag::{Diagnostic, Sources};
use crate::range::WhatIf;
use crate::render::{html, json, svg, text};

pub(super) fn answer(
    typed: &TypedServed,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Output, Vec<Diagnostic>> {
    let asked = asked(&typed.people, &typed.filter, catalogue, sources)?;
    let alterations = alterations(&typed.change, &asked, catalogue, sources)?;
    let range = asked.shelf(catalogue).columns;
    let what_if = WhatIf::new(range, &alterations, &asked.absent, catalogue);
    let counted = counted(&asked, &what_if.shelf, sources)?;
    let changed = what_if.changed(&counted, catalogue.shop.words, asked.seed);
    let customers = customers(&asked, &counted);
    let cautions = text::RANGE_CAUTIONS;
    let text = match typed.format {
        TypedPictureFormat::Json => json::text(&json::range_change(&customers, &alterations, &changed, cautions)),
        TypedPictureFormat::Text => text::range_change(&customers, &alterations, &changed, cautions),
        TypedPictureFormat::Html => {
            let [before, after] = what_if.maps(&counted);
            html::range_change(catalogue, &customers, &alterations, (&changed, [&before, &after]), cautions)
        }
        TypedPictureFormat::Svg => {
            let [before, after] = what_if.maps(&counted);
            svg::changed_map(&customers, [&before, &after]).file()
        }
    };
    Ok(Output { text, ending: Ending::Done })
}
