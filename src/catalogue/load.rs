//! From a set of profiles to a catalogue that may be trusted.

use super::{AGREEMENTS, Catalogue, Draft, Look, Origin, read, read_texts};
use crate::diag::{Diagnostic, Sources};
use crate::profile::Placed;

/// Loads a set of profiles that agrees with itself; the texts go into `sources`.
///
/// # Errors
///
/// Everything that keeps the set from being used, in one go.
pub fn load(origin: &Origin, sources: &mut Sources) -> Result<Catalogue, Vec<Diagnostic>> {
    let draft = read(origin, sources);
    trusted(draft, sources)
}

/// The same from texts, each with its path within the folder; `before` goes before the path where problems name it.
///
/// # Errors
///
/// As [`load`].
pub fn load_texts(texts: &[(&str, &str)], before: &str, sources: &mut Sources) -> Result<Catalogue, Vec<Diagnostic>> {
    let draft = read_texts(texts, before, sources);
    trusted(draft, sources)
}

fn trusted(draft: Draft, sources: &Sources) -> Result<Catalogue, Vec<Diagnostic>> {
    let look = Look::new(&draft, sources);
    let disagreements = AGREEMENTS.iter().flat_map(|rule| (rule.find)(&look)).collect::<Vec<_>>();
    let problems = [draft.problems, disagreements].concat();
    match draft.shop {
        Some(shop) if problems.is_empty() => {
            let (models, populations) = (values(draft.models), values(draft.populations));
            Ok(Catalogue::of_parts(shop.value, models, populations, values(draft.edges)))
        }
        _ => Err(problems),
    }
}

fn values<T>(placed: Vec<Placed<T>>) -> Vec<T> {
    placed.into_iter().map(|placed| placed.value).collect()
}
