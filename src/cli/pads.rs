//! `pads`: the cheapest way to a pad set.

use super::args::{TypedPads, TypedPageFormat};
use super::resolve::wish;
use super::{Ending, Output};
use crate::catalogue::Catalogue;
use crate::diag::{Code, Diagnostic, Sources};
use crate::render::{html, json, text};
use crate::supply::supply;

pub(super) fn answer(
    typed: &TypedPads,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Output, Vec<Diagnostic>> {
    let wish = wish(typed, catalogue, sources)?;
    let Some(supplied) = supply(&wish) else {
        // What is missing was a problem above.
        let message = "so many pads that are sold in several ways can't be weighed against each other at once";
        let help = "ask for fewer zones at a time, or for fewer --sets";
        return Err(vec![Diagnostic::error(Code("pads-form"), message).help(help)]);
    };
    let text = match typed.format {
        TypedPageFormat::Text => text::pads(catalogue, &wish, &supplied, text::PADS_CAUTIONS),
        TypedPageFormat::Json => json::text(&json::pads(catalogue, &wish, &supplied, text::PADS_CAUTIONS)),
        TypedPageFormat::Html => html::pads(catalogue, &wish, &supplied, text::PADS_CAUTIONS),
    };
    Ok(Output { text, ending: Ending::Done })
}
