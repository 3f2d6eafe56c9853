//! Whose heads remain likely, as values.

use super::super::common::{HeadValues, ShapeWords, error, probability, round};
use crate::fit::Quote;
use crate::plan::{Likely, Moved, StepWhy, Told};
use schemars::JsonSchema;
use serde::Serialize;

/// Whose heads are left.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Heads {
    /// As measured, before anything was tried.
    as_measured: LikelyHeads,
    /// Of those who get here.
    here: Option<LikelyHeads>,
    /// After each outcome of the try: the probabilities add up to 1.
    after: Vec<Outcome>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Outcome {
    /// `fit`, the id of a reason, or `else` where improbable ones are folded together.
    outcome: String,
    /// The reasons behind `else`.
    reasons: Vec<String>,
    probability: f64,
    probability_error: f64,
    heads: Option<LikelyHeads>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct LikelyHeads {
    mean: HeadValues,
    /// Standard deviations.
    sd: HeadValues,
    /// Sampling error of the means.
    mean_error: HeadValues,
    /// Sampling error of the standard deviations.
    sd_error: HeadValues,
    /// Probability of a long, an intermediate and a round oval in the shop's words.
    shape_words: ShapeWords,
    /// How many of the sampled heads effectively count.
    effective_heads: f64,
    /// How they differ from those before, where that is news: rounder, longer, larger, smaller, wider-face,
    /// narrower-face.
    moved: Vec<String>,
}

impl Heads {
    pub(super) fn of(why: &StepWhy) -> Self {
        Self {
            as_measured: LikelyHeads::of(&why.measured),
            here: why.here.as_ref().map(LikelyHeads::of),
            after: why.told.iter().map(Outcome::of).collect(),
        }
    }
}

impl Outcome {
    fn of(told: &Told) -> Self {
        let ids = || told.reasons.iter().map(|reason| reason.id().to_owned());
        let (outcome, reasons) = match told.reasons.as_slice() {
            [] => ("fit".to_owned(), Vec::new()),
            [one] => (one.id().to_owned(), Vec::new()),
            _ => ("else".to_owned(), ids().collect()),
        };
        Self {
            outcome,
            reasons,
            probability: probability(told.probability),
            probability_error: error(told.probability, 4),
            heads: told.likely.as_ref().map(LikelyHeads::of),
        }
    }
}

impl LikelyHeads {
    fn of(likely: &Likely) -> Self {
        let value = |quote: Quote| round(quote.value, 2);
        let moved = |moved: &Moved| match moved {
            Moved::Rounder => "rounder".to_owned(),
            Moved::Longer => "longer".to_owned(),
            Moved::Larger => "larger".to_owned(),
            Moved::Smaller => "smaller".to_owned(),
            Moved::WiderFace => "wider-face".to_owned(),
            Moved::NarrowerFace => "narrower-face".to_owned(),
        };
        Self {
            mean: HeadValues::of(likely.mean.map(value)),
            sd: HeadValues::of(likely.sd.map(value)),
            mean_error: HeadValues::of(likely.mean.map(|quote| error(quote, 2))),
            sd_error: HeadValues::of(likely.sd.map(|quote| error(quote, 2))),
            shape_words: ShapeWords::of(likely.words),
            effective_heads: round(likely.effective_heads, 0),
            moved: likely.moved.iter().map(moved).collect(),
        }
    }
}
