//! `schema`: the JSON Schema of a file, for editors.

use super::args::{TypedKind, TypedSchema};
use super::{Ending, Output};
use crate::journal::line_schema;
use crate::profile::FileSchema;
use crate::render::json;

pub(super) fn answer(typed: &TypedSchema) -> Output {
    let schema = match typed.kind {
        TypedKind::Shop => FileSchema::Shop,
        TypedKind::Helmets => FileSchema::Helmets,
        TypedKind::Fallbacks => FileSchema::Fallbacks,
        TypedKind::Population => FileSchema::Population,
        TypedKind::Customer => FileSchema::Customer,
        TypedKind::Try => return Output { text: json::text(&line_schema()), ending: Ending::Done },
    };
    Output { text: schema.text(), ending: Ending::Done }
}
