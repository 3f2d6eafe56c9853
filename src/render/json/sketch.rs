//! A sketch as a document: `lidladder.sketch/1`.

use super::common::{ByEye, MeasuredValue, Warning, error, pads, round};
use crate::sketch::{
    Experience, Figure, Heard, NewSize, Oddness, PadSource, Proposal, Saying, Sketch, Statement, Tried,
};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// A profile from experience.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "A sketch of lidladder", extend("$id" = "urn:lidladder:sketch:1"))]
pub struct SketchDocument {
    /// `lidladder.sketch/1`.
    #[schemars(extend("const" = "lidladder.sketch/1"))]
    schema: String,
    seed: u64,
    population: String,
    sizes: Vec<SizeBody>,
    /// What was said of the shape: independent statements, each a normal over the shape index.
    said: Vec<StatementBody>,
    /// Before any customer.
    prior: PriorBody,
    /// The shape index with the customers.
    shape_index: FigureBody,
    /// By how many mm of circumference the size centres lie above their labels.
    offset_mm: FigureBody,
    /// How shape index and offset go together, -1 to 1.
    correlation: f64,
    /// Eight in ten such helmets have a shape index between the two.
    interval_80: [f64; 2],
    /// Standard deviation of a direct measurement of the index that is worth as much as all customers; null where they
    /// did not narrow it.
    worth_sd: Option<f64>,
    /// Two separate possible shapes, where there are two; else empty.
    humps: Vec<HumpBody>,
    customers: Vec<CustomerBody>,
    /// How probable reports as odd as these are for the shape as sketched.
    oddness_here: OddnessBody,
    /// How probable they are for the shape that explains them best, whatever was said of it.
    oddness_at_best: OddnessBody,
    /// What is proposed.
    interior: InteriorBody,
    /// `interior` and `shells` of a model, to be pasted into a helmets file.
    yaml: String,
    warnings: Vec<Warning>,
    cautions: Vec<String>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct SizeBody {
    size: String,
    /// The labelled range of circumference.
    circumference_mm: [f64; 2],
    standard_pads_mm: BTreeMap<String, f64>,
    /// The zones whose pads were given.
    given: Vec<String>,
    /// Where the other pads come from.
    pads_from: PadsFrom,
}

#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct PadsFrom {
    /// The model with the nearest size; null where the medians of the range were taken.
    model: Option<String>,
    /// Its size.
    size: Option<String>,
    /// The type whose medians were taken; null for the whole range or a model.
    r#type: Option<String>,
    /// How many sizes they come from.
    sizes: usize,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct StatementBody {
    /// like, by-eye or range (nothing was said).
    kind: String,
    /// Of `like`.
    model: Option<String>,
    /// Of `like`: much-longer, longer, same, rounder, much-rounder.
    comparison: Option<String>,
    /// Of `range`: how many models it holds.
    models: Option<usize>,
    /// Of `range`: the type that they are of.
    r#type: Option<String>,
    shape_index: f64,
    sd: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct PriorBody {
    shape_index: f64,
    sd: f64,
    centre_sd_mm: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct FigureBody {
    mean: f64,
    /// Sampling error of the mean.
    mean_error: f64,
    sd: f64,
    /// Sampling error of the standard deviation.
    sd_error: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct HumpBody {
    shape_index: f64,
    probability: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct CustomerBody {
    size: String,
    measured: Vec<MeasuredValue>,
    shape_by_eye: Option<ByEye>,
    /// The pads that were in the helmet; null for the standard pads.
    mounted_mm: Option<BTreeMap<String, f64>>,
    /// Why it was no good; null where it fitted.
    reason: Option<String>,
    /// How probable the report is for the helmet as sketched.
    expected_probability: f64,
    /// By how much this customer moves the shape index.
    pull: f64,
    /// Share of heads that are less unusual than the measurements, 0 to 1.
    rarity: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct OddnessBody {
    shape_index: f64,
    /// Of the size centres.
    offset_mm: f64,
    probability: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct InteriorBody {
    shape_index: f64,
    /// Always by-eye.
    origin: String,
    sd: f64,
    centre_sd_mm: f64,
}

/// The document of a sketch, with what is proposed and its text.
#[must_use]
pub fn sketch(
    experience: &Experience<'_>,
    sketch: &Sketch,
    (proposal, yaml): (Proposal, String),
    (warnings, cautions): (Vec<Warning>, &[&str]),
) -> SketchDocument {
    let customers = experience.tried.iter().zip(&sketch.heard);
    SketchDocument {
        schema: "lidladder.sketch/1".to_owned(),
        seed: experience.seed,
        population: experience.population.to_string(),
        sizes: experience.sizes.iter().map(size).collect(),
        said: experience.statements.iter().map(statement).collect(),
        prior: PriorBody {
            shape_index: round(sketch.prior.mean, 2),
            sd: round(sketch.prior.sd, 2),
            centre_sd_mm: round(sketch.prior_offset_sd, 2),
        },
        shape_index: figure(&sketch.index),
        offset_mm: figure(&sketch.offset),
        correlation: round(sketch.correlation, 2),
        interval_80: [round(sketch.interval.0, 2), round(sketch.interval.1, 2)],
        worth_sd: sketch.worth().map(|sd| round(sd, 2)),
        humps: sketch
            .humps
            .iter()
            .flatten()
            .map(|hump| HumpBody { shape_index: round(hump.mean, 2), probability: round(hump.share, 3) })
            .collect(),
        customers: customers.map(|(tried, heard)| customer(experience, tried, heard)).collect(),
        oddness_here: oddness(sketch.here),
        oddness_at_best: oddness(sketch.at_best),
        interior: InteriorBody {
            shape_index: proposal.shape_index,
            origin: "by-eye".to_owned(),
            sd: proposal.sd,
            centre_sd_mm: proposal.centre_sd,
        },
        yaml,
        warnings,
        cautions: cautions.iter().map(|line| (*line).to_owned()).collect(),
    }
}

fn size(size: &NewSize<'_>) -> SizeBody {
    SizeBody {
        size: size.label.to_string(),
        circumference_mm: [round(size.circumference.0, 1), round(size.circumference.1, 1)],
        standard_pads_mm: pads(&size.standard),
        given: size.given.iter().map(|zone| zone.name().to_owned()).collect(),
        pads_from: match size.source {
            PadSource::Like(model, like) => PadsFrom {
                model: Some(model.id.to_string()),
                size: Some(like.label.to_string()),
                r#type: None,
                sizes: 1,
            },
            PadSource::Range(sizes, kind) => {
                PadsFrom { model: None, size: None, r#type: kind.map(|kind| kind.name().to_owned()), sizes }
            }
        },
    }
}

fn statement(statement: &Statement<'_>) -> StatementBody {
    let (shape_index, sd) = (round(statement.index.mean, 2), round(statement.index.sd, 2));
    let bare = |kind: &str| StatementBody {
        kind: kind.to_owned(),
        model: None,
        comparison: None,
        models: None,
        r#type: None,
        shape_index,
        sd,
    };
    match statement.said {
        Saying::Like(model, comparison) => StatementBody {
            model: Some(model.id.to_string()),
            comparison: Some(comparison.id().to_owned()),
            ..bare("like")
        },
        Saying::ByEye(_) => bare("by-eye"),
        Saying::Range(models, kind) => {
            StatementBody { models: Some(models), r#type: kind.map(|kind| kind.name().to_owned()), ..bare("range") }
        }
    }
}

fn figure(figure: &Figure) -> FigureBody {
    FigureBody {
        mean: round(figure.mean.value, 2),
        mean_error: error(figure.mean, 2),
        sd: round(figure.sd.value, 2),
        sd_error: error(figure.sd, 2),
    }
}

fn customer(experience: &Experience<'_>, tried: &Tried, heard: &Heard) -> CustomerBody {
    CustomerBody {
        size: experience.sizes[tried.size].label.to_string(),
        measured: tried.readings.iter().map(MeasuredValue::of).collect(),
        shape_by_eye: tried.head.by_eye().map(ByEye::of),
        mounted_mm: tried.mounted.as_ref().map(pads),
        reason: tried.reason.map(|reason| reason.id().to_owned()),
        expected_probability: round(heard.expected, 3),
        pull: round(heard.pull, 2),
        rarity: round(heard.rarity, 4),
    }
}

fn oddness(odd: Oddness) -> OddnessBody {
    OddnessBody {
        shape_index: round(odd.index, 2),
        offset_mm: round(odd.offset, 1),
        probability: round(odd.probability, 4),
    }
}
