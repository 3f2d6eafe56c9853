//! The profile files as they are written: the only place that knows their keys.
//!
//! Every struct refuses unknown keys. Numbers are finite ([`Number`]); nothing here is checked beyond
//! its type: that is the work of `profile::resolve`, which knows the place of every value.
//!
//! The JSON Schemas of the files are made from these structs too, so a comment on a field is read by a fitter who
//! points at the key in an editor: one plain sentence, with the unit.

mod away;
mod buying;
mod customer;
mod fallbacks;
mod helmets;
mod learning;
mod pad_rules;
mod population;
mod practice;
mod shop;
mod tries;

pub(crate) use away::RawAway;
pub(crate) use buying::{RawBuying, RawStocking};
pub(crate) use customer::CustomerFile;
pub(crate) use fallbacks::{FallbackFile, RawEdge};
pub(crate) use helmets::{
    HelmetFile, PadsTrade, RawAttributes, RawChinRoom, RawInterior, RawKind, RawModel, RawOrigin, RawPack, RawPad,
    RawShell, RawSize, RawSwapMinutes, RawZone,
};
pub(crate) use learning::RawLearning;
pub(crate) use pad_rules::{RawPadRules, RawPayer};
pub(crate) use population::{PopulationFile, RawComponent};
pub(crate) use practice::RawPractice;
pub(crate) use shop::{
    RawBands, RawChecking, RawFit, RawMeasurer, RawMeasuring, RawPlausible, RawProfileError, RawShapeByEye, RawSketch,
    RawTool, ShopFile,
};
pub(crate) use tries::TriesFile;

use schemars::JsonSchema;
use serde::Deserialize;

// Finite: `.nan` and `.inf` are refused where they stand.
/// A number without a unit, with a point before its decimals.
#[derive(Debug, Clone, Copy, Deserialize, JsonSchema)]
#[serde(try_from = "f64")]
pub(crate) struct Number(pub(crate) f64);

impl TryFrom<f64> for Number {
    type Error = &'static str;

    fn try_from(value: f64) -> Result<Self, Self::Error> {
        if value.is_finite() { Ok(Self(value)) } else { Err("a finite number is needed here") }
    }
}
