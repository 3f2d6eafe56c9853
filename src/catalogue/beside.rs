//! Helmets in a file of their own, beside a set of profiles.

use super::{AGREEMENTS, Catalogue, Draft, DraftFile, FileKind, Look, read_capped};
use crate::diag::{Code, Diagnostic, Sources, Span};
use crate::profile::{Model, text_of};
use std::path::Path;

/// Reads a file of helmets that belong to no set; its text goes into `sources`. Each model comes with the place of its id.
///
/// # Errors
///
/// Everything that keeps the file from being used, in one go: what would be wrong in the folder `helmets`, and prices in
/// another currency than the catalogue's.
pub fn helmets_beside(
    path: &Path,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Vec<(Model, Span)>, Vec<Diagnostic>> {
    let name = path.to_string_lossy().into_owned();
    let bytes = read_capped(path).map_err(|fault| {
        let help = "name a file of helmets, or a model and the shape index of one like it: wexmarsh-one@83";
        vec![Diagnostic::error(Code("profile-unreadable"), format!("can't read {name}: {fault}")).help(help)]
    })?;
    let text = text_of(&name, bytes).map_err(|problem| vec![problem])?;
    let source = sources.add(name, text);
    let mut draft = Draft::default();
    draft.files.push(DraftFile { source, kind: FileKind::Helmets, is_lent: false });
    // The others are none of this file's business.
    draft.hidden.extend([FileKind::Shop, FileKind::Fallbacks, FileKind::Population]);
    draft.resolve(sources);
    let look = Look::new(&draft, sources);
    let mut problems = draft.problems.clone();
    problems.extend(AGREEMENTS.iter().flat_map(|rule| (rule.find)(&look)));
    let own = &catalogue.shop.currency;
    for named in draft.currencies.iter().filter(|named| named.value != *own && look.is_sound(&named.place)) {
        let message = format!("these prices are in {}, and the shop's are in {own}", named.value);
        let help = "convert the prices of this file, or leave the line out if they are in the shop's currency already";
        let problem = Diagnostic::error(Code("currency-mismatch"), message);
        problems.push(problem.at(look.span(&named.place), "another currency").help(help));
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    let placed = draft.models.iter().map(|model| (model.value.clone(), look.span(&model.place.key("id"))));
    Ok(placed.collect())
}
