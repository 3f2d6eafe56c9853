//! `fit`: one head against one model.

use super::args::{TypedFilter, TypedFit, TypedPictureFormat};
use super::plan::head_warnings;
use super::resolve::Resolver;
use super::{Ending, Output};
use crate::catalogue::Catalogue;
use crate::diag::{Diagnostic, Sources};
use crate::fit::inspect;
use crate::render::{html, json, svg, text};

pub(super) fn answer(
    typed: &TypedFit,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Output, Vec<Diagnostic>> {
    let mut resolver = Resolver::default();
    let notes = resolver.notes(&typed.head, &TypedFilter::default(), sources)?;
    let customer = resolver.customer(&notes, &typed.common, catalogue, sources);
    let model = resolver.model(&sources.say("MODEL", typed.model.clone()), catalogue);
    let label = typed.size.as_ref().map(|text| sources.say("--size", text.clone()));
    let size = label.zip(model).and_then(|(said, model)| resolver.size(&said, model));
    let (customer, model) = resolver.finish(customer.zip(model))?;
    // A label that the model lacks was a problem above, and a model has sizes.
    let Some(inspection) = inspect(catalogue, &customer, model, size.as_ref()) else { return Err(Vec::new()) };
    let warnings = head_warnings(catalogue, &customer, &inspection.head);
    let fits = inspection.verdict.best().fits();
    let ending = if fits && warnings.is_empty() { Ending::Done } else { Ending::Findings };
    let text = match typed.format {
        TypedPictureFormat::Text => text::fit(catalogue, &customer, &inspection, &warnings, text::FIT_CAUTIONS),
        TypedPictureFormat::Json => {
            json::text(&json::fit(catalogue, &customer, &inspection, (warnings, text::FIT_CAUTIONS)))
        }
        TypedPictureFormat::Html => html::fit(catalogue, &customer, &inspection, &warnings, text::FIT_CAUTIONS),
        TypedPictureFormat::Svg => {
            svg::cross_section(&inspection.section(&catalogue.shop.fit), &inspection.candidate.title(), "fit").file()
        }
    };
    Ok(Output { text, ending })
}
