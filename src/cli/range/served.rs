//! `range`: who is served, and what would change.

use super::super::args::{TypedRangeFormat, TypedServed};
use super::super::resolve::asked;
use super::super::{Ending, Output};
use super::people::counted;
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
    let counted = counted(&asked, &shelf)?;
    let made = served(catalogue, &shelf, &counted, asked.seed);
    let people = asked.people_in_words();
    let text = match typed.format {
        TypedRangeFormat::Text => text::served(catalogue, &people, &made, text::RANGE_CAUTIONS),
        TypedRangeFormat::Json => {
            json::text(&json::served(catalogue, (&people, asked.seed), &made, text::RANGE_CAUTIONS))
        }
        TypedRangeFormat::Svg => svg::range_map(&people, &made.map),
    };
    let counted = counted(&asked, &shelf, sources)?;
    let standard = counted.tally.share(|pattern| !pattern.standard.is_empty());
    let on_offer = counted.tally.share(|pattern| !pattern.on_offer.is_empty());
    let spreads = crate::range::spreads(&shelf, &counted.kept, asked.seed, |tally| {
        vec![
            tally.share(|pattern| !pattern.standard.is_empty()).value,
            tally.share(|pattern| !pattern.on_offer.is_empty()).value,
        ]
    });
    let text = format!("{standard:?} {on_offer:?} {} patterns {spreads:?}\n", counted.tally.patterns().count());
    Ok(Output { text, ending: Ending::Done })
}
