//! The new model that would win most customers, as a document: `lidladder.range-design/1`.

use super::figures::{ShareBody, SpreadBody};
use crate::head::Population;
use crate::profile::{Axis, Zone};
use crate::range::{Blueprint, Design, Designs, Part, Rung};
use crate::render::json::common::{pads, round};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// The new model that would win most customers, searched on one half of the heads and judged on the other.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "A new model by lidladder", extend("$id" = "urn:lidladder:range-design:1"))]
pub struct RangeDesignDocument {
    /// `lidladder.range-design/1`.
    #[schemars(extend("const" = "lidladder.range-design/1"))]
    schema: String,
    seed: u64,
    population: String,
    /// Models that were asked for: customers whom one of them fits can't be won.
    models: usize,
    /// Heads that every share is of.
    judging_heads: u64,
    /// Customers whom no model fits with any pads on offer.
    gap: ShareBody,
    gap_spread: SpreadBody,
    /// Sizes to choose from.
    ladder: Vec<SizeBody>,
    /// Standard pads of every size of a new model, mm by zone.
    standard_pads_mm: BTreeMap<String, f64>,
    /// The best one, worth having or not; nothing where no customer can be won.
    best: Option<DesignBody>,
    /// The best one whose shape a fitter tells from that of the best.
    next: Option<DesignBody>,
    /// By how much the best wins more than the next.
    lead: Option<LeadBody>,
    /// The best one for each shape index at which one wins anybody.
    by_shape_index: Vec<AtIndexBody>,
    /// A model of the shop that would win most with the shape index of the best, in its own sizes, with its own pads.
    reshaped: Option<ReshapedBody>,
    cautions: Vec<String>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct SizeBody {
    label: String,
    circumference_mm: (f64, f64),
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct BlueprintBody {
    shape_index: f64,
    /// Labels of its sizes.
    sizes: Vec<String>,
    /// Zones with other pads on offer.
    tunable: Vec<String>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct DesignBody {
    design: BlueprintBody,
    /// Whether each of its sizes and tunable zones wins as many customers as it should.
    pays: bool,
    /// Customers whom it fits and no model of the shop does.
    wins: ShareBody,
    wins_spread: SpreadBody,
    /// For each size and each axis with tunable zones the customers that are lost without it.
    parts: Vec<PartBody>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct PartBody {
    /// The label of a size.
    size: Option<String>,
    /// The zones of a tunable axis.
    zones: Option<Vec<String>>,
    loses: ShareBody,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct LeadBody {
    more: ShareBody,
    more_spread: SpreadBody,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct AtIndexBody {
    design: BlueprintBody,
    wins: ShareBody,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ReshapedBody {
    model: String,
    shape_index: f64,
    wins: ShareBody,
}

/// The document of an answer.
#[must_use]
pub fn range_design(
    seed: u64,
    population: &Population,
    models: usize,
    designs: &Designs<'_>,
    cautions: &[&str],
) -> RangeDesignDocument {
    let shape_index = designs.best.as_ref().map(|best| best.blueprint.shape_index);
    RangeDesignDocument {
        schema: "lidladder.range-design/1".to_owned(),
        seed,
        population: population.id.to_string(),
        models,
        judging_heads: designs.judges,
        gap: designs.gap.into(),
        gap_spread: designs.gap_spread.into(),
        ladder: designs.ladder.iter().map(SizeBody::of).collect(),
        standard_pads_mm: pads(&designs.pads),
        best: designs.best.as_ref().map(DesignBody::of),
        next: designs.next.as_ref().map(DesignBody::of),
        lead: designs.lead.map(|lead| LeadBody { more: lead.quote.into(), more_spread: lead.spread.into() }),
        by_shape_index: designs
            .by_index
            .iter()
            .map(|(blueprint, gain)| AtIndexBody { design: BlueprintBody::of(blueprint), wins: (*gain).into() })
            .collect(),
        reshaped: designs.reshaped.zip(shape_index).map(|((model, gain), shape_index)| ReshapedBody {
            model: model.id.to_string(),
            shape_index,
            wins: gain.into(),
        }),
        cautions: cautions.iter().map(|line| (*line).to_owned()).collect(),
    }
}

impl SizeBody {
    fn of(rung: &Rung) -> Self {
        let (from, to) = rung.circumference;
        Self { label: rung.label.to_string(), circumference_mm: (round(from, 2), round(to, 2)) }
    }
}

impl BlueprintBody {
    fn of(blueprint: &Blueprint) -> Self {
        Self {
            shape_index: blueprint.shape_index,
            sizes: blueprint.sizes.iter().map(|rung| rung.label.to_string()).collect(),
            tunable: blueprint.zones().map(|zone| zone.name().to_owned()).collect(),
        }
    }
}

impl DesignBody {
    fn of(design: &Design) -> Self {
        let zones = |axis: Axis| axis.zones().iter().map(|zone: &Zone| zone.name().to_owned()).collect();
        let part = |(part, loses): &(Part, crate::fit::Quote)| {
            let (size, zones) = match part {
                Part::Size(rung) => (Some(rung.label.to_string()), None),
                Part::Tunable(axis) => (None, Some(zones(*axis))),
            };
            PartBody { size, zones, loses: (*loses).into() }
        };
        Self {
            design: BlueprintBody::of(&design.blueprint),
            pays: design.pays,
            wins: design.gain.into(),
            wins_spread: design.spread.into(),
            parts: design.parts.iter().map(part).collect(),
        }
    }
}
