//! From a set of profiles to a catalogue that may be trusted.

use super::{AGREEMENTS, Catalogue, Look, Origin, read};
use crate::diag::{Diagnostic, Sources};
use crate::profile::Placed;

/// Loads a set of profiles that agrees with itself; the texts go into `sources`.
///
/// # Errors
///
/// Everything that keeps the set from being used, in one go.
pub fn load(origin: &Origin, sources: &mut Sources) -> Result<Catalogue, Vec<Diagnostic>> {
    let draft = read(origin, sources);
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
