//! `populations/<id>.yaml`: whose heads the shop expects.

use super::Number;
use crate::head::Measure;
use crate::profile::bounds::{self, of_head};
use crate::profile::schema::{Name, Text, Version, more_than_least, within};
use schemars::JsonSchema;
use serde::Deserialize;

/// A population of heads from a survey: a mixture of normal distributions of four measures.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "populations/*.yaml: whose heads the shop expects")]
pub(crate) struct PopulationFile {
    /// Version of the file's form: always 1.
    #[schemars(with = "Version")]
    pub(crate) schema: u32,
    /// What shop.yaml and `--population` call it; no other population has the same.
    #[schemars(with = "Name", extend("examples" = ["adults"]))]
    pub(crate) id: String,
    /// Its name for people.
    #[schemars(with = "Text")]
    pub(crate) name: String,
    /// Where the numbers come from: the survey, its year and how many heads it measured.
    #[schemars(with = "Text")]
    pub(crate) source: String,
    /// The groups that the population is made of, for example men and women; their shares add up to 1.
    #[schemars(length(min = 1))]
    pub(crate) components: Vec<RawComponent>,
}

/// One group of the population.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawComponent {
    /// The group's name for people.
    #[schemars(with = "Text")]
    pub(crate) name: String,
    /// The group's share of the population: more than 0, and 1 is all of it.
    #[schemars(transform = more_than_least(bounds::SHARE))]
    pub(crate) share: Number,
    /// The mean of each measure, in mm.
    pub(crate) mean_mm: RawMeasures,
    /// How the measures vary together: the covariance matrix in mm², row by row; symmetric and positive definite.
    pub(crate) covariance_mm2: RawCovariance,
}

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawMeasures {
    /// Around the head above the brow, with a tape, in mm.
    #[schemars(transform = within(of_head(Measure::Circumference)))]
    pub(crate) circumference: Number,
    /// From between the brows to the rearmost point, in mm.
    #[schemars(transform = within(of_head(Measure::Length)))]
    pub(crate) length: Number,
    /// The widest breadth above the ears, in mm.
    #[schemars(transform = within(of_head(Measure::Breadth)))]
    pub(crate) breadth: Number,
    /// The widest breadth across the cheekbones, in mm.
    #[schemars(transform = within(of_head(Measure::FaceWidth)))]
    pub(crate) face_width: Number,
}

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawCovariance {
    /// The circumference with circumference, length, breadth and face width, in mm².
    pub(crate) circumference: [Number; 4],
    /// The length with circumference, length, breadth and face width, in mm².
    pub(crate) length: [Number; 4],
    /// The breadth with circumference, length, breadth and face width, in mm².
    pub(crate) breadth: [Number; 4],
    /// The face width with circumference, length, breadth and face width, in mm².
    pub(crate) face_width: [Number; 4],
}
