//! What several documents say alike.

use crate::catalogue::Catalogue;
use crate::fit::{Candidate, Customer, Estimate, PadSet, Quote};
use crate::head::{Reading, ShapeByEye};
use crate::plan::Source;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// Something to look at.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Warning {
    /// Its stable name.
    pub code: String,
    /// What is the matter.
    pub message: String,
}

/// The head as measured and as inferred.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Head {
    population: String,
    measured: Vec<MeasuredValue>,
    /// Shape as judged by eye.
    shape_by_eye: Option<ByEye>,
    /// Helmets that the customer wears.
    wears: Vec<Wears>,
    estimate: EstimateValues,
    /// Probability of a long, an intermediate and a round oval in the shop's words.
    shape_words: ShapeWords,
    /// Share of heads that are less unusual than the measurements, 0 to 1.
    rarity: f64,
    /// How many of the sampled heads of a set effectively count.
    effective_heads: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct MeasuredValue {
    /// circumference, length, breadth or face width.
    measure: String,
    value_mm: f64,
    /// Standard deviation of the reading; 0 is exact.
    sd_mm: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct ByEye {
    shape_index: f64,
    sd: f64,
}

#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Wears {
    model: String,
    size: String,
    reason: Option<String>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct EstimateValues {
    mean: HeadValues,
    sd: HeadValues,
    /// Sampling error of the means.
    mean_error: HeadValues,
    /// Sampling error of the standard deviations.
    sd_error: HeadValues,
}

#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct HeadValues {
    circumference_mm: f64,
    length_mm: f64,
    breadth_mm: f64,
    face_width_mm: f64,
    shape_index: f64,
}

#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct ShapeWords {
    long_oval: f64,
    intermediate_oval: f64,
    round_oval: f64,
}

impl Head {
    pub(super) fn of(customer: &Customer<'_>, estimate: &Estimate) -> Self {
        let measured = customer.readings.iter().map(MeasuredValue::of);
        let wears = customer.worn.iter().map(|worn| Wears {
            model: worn.model.id.to_string(),
            size: worn.size.to_string(),
            reason: worn.reason.map(|reason| reason.id().to_owned()),
        });
        Self {
            population: customer.population.to_string(),
            measured: measured.collect(),
            shape_by_eye: customer.head.by_eye().map(ByEye::of),
            wears: wears.collect(),
            estimate: EstimateValues {
                mean: HeadValues::of(estimate.mean.map(|quote| round(quote.value, 2))),
                sd: HeadValues::of(estimate.sd.map(|quote| round(quote.value, 2))),
                mean_error: HeadValues::of(estimate.mean.map(|quote| error(quote, 2))),
                sd_error: HeadValues::of(estimate.sd.map(|quote| error(quote, 2))),
            },
            shape_words: ShapeWords::of(estimate.words),
            rarity: round(estimate.rarity, 4),
            effective_heads: round(estimate.effective_heads, 0),
        }
    }
}

impl MeasuredValue {
    pub(super) fn of(reading: &Reading) -> Self {
        Self {
            measure: reading.measure.name().to_owned(),
            value_mm: round(reading.value, 3),
            sd_mm: round(reading.sd, 3),
        }
    }
}

impl ByEye {
    pub(super) fn of(eye: ShapeByEye) -> Self {
        Self { shape_index: eye.mean, sd: eye.sd }
    }
}

impl ShapeWords {
    pub(super) fn of(words: [Quote; 3]) -> Self {
        let [long_oval, intermediate_oval, round_oval] = words.map(probability);
        Self { long_oval, intermediate_oval, round_oval }
    }
}

impl HeadValues {
    pub(super) fn of([circumference_mm, length_mm, breadth_mm, face_width_mm, shape_index]: [f64; 5]) -> Self {
        Self { circumference_mm, length_mm, breadth_mm, face_width_mm, shape_index }
    }
}

/// What the numbers of a plan are called.
pub(super) struct View<'a> {
    pub(super) catalogue: &'a Catalogue,
    pub(super) candidates: &'a [Candidate<'a>],
}

impl View<'_> {
    /// Model and size.
    pub(super) fn name(&self, candidate: usize) -> (String, String) {
        let known = &self.candidates[candidate];
        (known.model.id.to_string(), known.size.label.to_string())
    }

    /// What the shop says, where it speaks.
    pub(super) fn note(&self, source: Source) -> Option<String> {
        match source {
            Source::Computed => None,
            Source::Rule(rule) => self.catalogue.edges().get(rule).map(|edge| edge.note.clone()),
        }
    }
}

/// Thickness by zone, mm; zones without a pad are left out.
pub(super) fn pads(set: &PadSet) -> BTreeMap<String, f64> {
    set.iter().filter_map(|(zone, mm)| mm.map(|mm| (zone.name().to_owned(), mm))).collect()
}

/// Rounded, so that a document shows no digits that the sampling can't stand for.
pub(super) fn round(value: f64, digits: i32) -> f64 {
    let scale = 10_f64.powi(digits);
    let rounded = (value * scale).round() / scale;
    // No document says -0.
    if rounded.abs() < f64::MIN_POSITIVE { 0.0 } else { rounded }
}

/// The sampling error of a rounded figure, with the step of the rounding in it.
pub(super) fn error(quote: Quote, digits: i32) -> f64 {
    let step = 10_f64.powi(-digits);
    round(((quote.error + step) / step).ceil() * step, digits)
}

/// A probability to four digits.
pub(super) fn probability(quote: Quote) -> f64 {
    round(quote.value.clamp(0.0, 1.0), 4)
}
