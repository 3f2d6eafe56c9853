//! The JSON Schemas of the files that a shop writes, for editors that complete and check while somebody types.
//!
//! They are made from the structs that read the files (`profile::raw`) and from the numbers that the reader holds
//! values to (`profile::bounds`). A file that a schema refuses may still be read (a key without a value, a name that
//! looks like a number); a file that it takes may still be refused, for what no schema can say: names that nothing
//! defines, ranges that run backwards.

mod limits;
mod tidy;
mod words;

pub(super) use limits::{each_within, more_than_least, within};
pub(super) use words::{
    CurrencyCode, HelmetAndReason, HelmetPart, Name, OvalWord, Price, ReasonWord, Text, ThingWord, ToolWord, Typed,
    Version,
};

use super::raw::{CustomerFile, FallbackFile, HelmetFile, PopulationFile, ShopFile};
use schemars::JsonSchema;
use schemars::generate::SchemaSettings;
use schemars::transform::RecursiveTransform;

/// A kind of file that a shop writes, as a schema describes it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FileSchema {
    /// `shop.yaml`.
    Shop,
    /// `helmets/*.yaml`.
    Helmets,
    /// `fallbacks.yaml`.
    Fallbacks,
    /// `populations/*.yaml`.
    Population,
    /// The file behind `--customer`.
    Customer,
}

impl FileSchema {
    /// Every kind.
    pub const ALL: [Self; 5] = [Self::Shop, Self::Helmets, Self::Fallbacks, Self::Population, Self::Customer];

    /// What the kind is called.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Shop => "shop",
            Self::Helmets => "helmets",
            Self::Fallbacks => "fallbacks",
            Self::Population => "population",
            Self::Customer => "customer",
        }
    }

    /// What its schema is called as a file: `shop.schema.json`.
    #[must_use]
    pub fn file_name(self) -> String {
        format!("{}.schema.json", self.name())
    }

    /// The schema (JSON Schema 2020-12) as text, with a line break at its end.
    #[must_use]
    pub fn text(self) -> String {
        match self {
            Self::Shop => text_of::<ShopFile>(),
            Self::Helmets => text_of::<HelmetFile>(),
            Self::Fallbacks => text_of::<FallbackFile>(),
            Self::Population => text_of::<PopulationFile>(),
            Self::Customer => text_of::<CustomerFile>(),
        }
    }
}

/// Without references: the words of a key stand beside it, wherever an editor looks for them.
fn text_of<T: JsonSchema>() -> String {
    let settings = SchemaSettings::draft2020_12().for_deserialize().with(|settings| settings.inline_subschemas = true);
    let generator = settings.with_transform(RecursiveTransform(tidy::tidy)).into_generator();
    // A schema is made of texts, numbers and groups, which always have a JSON form.
    let mut text = serde_json::to_string_pretty(&generator.into_root_schema_for::<T>()).unwrap_or_default();
    text.push('\n');
    text
}
