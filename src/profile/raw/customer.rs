//! A customer's notes: the same keys as the head options of the command line, each optional.

use super::{RawKind, RawMeasurer};
use crate::profile::schema::{HelmetAndReason, HelmetPart, Name, OvalWord, ThingWord, ToolWord, Typed, Version};
use schemars::JsonSchema;
use serde::Deserialize;

/// What is known of one customer, each key as the option of the command line; an option that is typed comes first.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "A customer file")]
pub(crate) struct CustomerFile {
    /// Version of the file's form: always 1.
    #[schemars(with = "Version")]
    pub(crate) schema: u32,
    /// Around the head above the brow, with a tape; in mm without a unit, and in quotes if it is a number alone.
    #[schemars(with = "Option<Typed>", extend("examples" = ["57.5cm", "575", "22.6in", "575±3"]))]
    pub(crate) circumference: Option<String>,
    /// From between the brows to the rearmost point; in mm without a unit, and in quotes if it is a number alone.
    #[schemars(with = "Option<Typed>", extend("examples" = ["198mm", "19.8cm", "198±2"]))]
    pub(crate) length: Option<String>,
    /// The widest breadth above the ears; in mm without a unit, and in quotes if it is a number alone.
    #[schemars(with = "Option<Typed>", extend("examples" = ["154mm", "15.4cm", "154±2"]))]
    pub(crate) breadth: Option<String>,
    /// The widest breadth across the cheekbones; in mm without a unit, and in quotes if it is a number alone.
    #[schemars(with = "Option<Typed>", extend("examples" = ["140mm", "14cm", "140±2"]))]
    pub(crate) face_width: Option<String>,
    /// Who measured; staff is assumed.
    #[schemars(with = "Option<RawMeasurer>")]
    pub(crate) measured_by: Option<String>,
    /// What all but the circumference was measured with; a caliper is assumed.
    #[schemars(with = "Option<ToolWord>")]
    pub(crate) measured_with: Option<String>,
    /// The shape of the head as judged by eye.
    #[schemars(with = "Option<OvalWord>")]
    pub(crate) shape: Option<String>,
    /// Helmets that the customer wears, as MODEL/SIZE/REASON, or MODEL/SIZE for one that fits.
    #[serde(default)]
    #[schemars(with = "Vec<HelmetAndReason>", extend("examples" = [["example-middle/L/too-round"]]))]
    pub(crate) wears: Vec<String>,
    /// Whose heads the shop expects for this customer: the id of a population.
    #[schemars(with = "Option<Name>")]
    pub(crate) population: Option<String>,
    /// Only helmets of these types.
    #[serde(default)]
    #[schemars(with = "Vec<RawKind>")]
    pub(crate) types: Vec<String>,
    /// Only helmets that have all of these.
    #[serde(default)]
    #[schemars(with = "Vec<ThingWord>")]
    pub(crate) must: Vec<String>,
    /// Only helmets up to this price in the shop's currency; in quotes, as it is a number alone.
    #[schemars(with = "Option<Typed>", extend("examples" = ["450"]))]
    pub(crate) price_limit: Option<String>,
    /// Only helmets up to this mass in g; in quotes, as it is a number alone.
    #[schemars(with = "Option<Typed>", extend("examples" = ["1500"]))]
    pub(crate) mass_limit: Option<String>,
    /// What is not there today, as MODEL or MODEL/SIZE.
    #[serde(default)]
    #[schemars(with = "Vec<HelmetPart>", extend("examples" = [["example-middle/L"]]))]
    pub(crate) out_of_stock: Vec<String>,
}
