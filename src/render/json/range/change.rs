//! What would change with other models, as a document: `lidladder.range-change/1`.

use super::figures::{CustomersBody, ShareBody, SpreadBody};
use crate::profile::ShapeWords;
use crate::range::{Alteration, Changed, Customers, Effect, Effects, Group, LeftOut, What};
use crate::render::json::common::round;
use schemars::JsonSchema;
use serde::Serialize;

/// A range before and after some changes, on the same customers.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "A changed range of lidladder", extend("$id" = "urn:lidladder:range-change:1"))]
pub struct RangeChangeDocument {
    /// `lidladder.range-change/1`.
    #[schemars(extend("const" = "lidladder.range-change/1"))]
    schema: String,
    seed: u64,
    customers: CustomersBody,
    /// What is changed, each with its effect alone on the range as it is.
    changes: Vec<AlterationBody>,
    /// All of it together.
    together: EffectsBody,
    /// Those who are served only afterwards, with the pads on offer, by size and shape; most of them first.
    won: Vec<GroupBody>,
    /// Those who are served only before.
    lost: Vec<GroupBody>,
    cautions: Vec<String>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct AlterationBody {
    /// drop, add, add-like or without-pads.
    change: String,
    /// The model, as it was asked for.
    model: String,
    name: String,
    /// The sizes that come in, or stay with fewer pads; none for a model that is dropped.
    sizes: Vec<String>,
    /// Shape index of what comes in or stays; null for a model that is dropped.
    shape_index: Option<f64>,
    /// Pads that aren't kept: null for both is all of them, null for the thickness all of a zone.
    left_out: Vec<LeftOutBody>,
    alone: EffectsBody,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct LeftOutBody {
    zone: Option<String>,
    thickness_mm: Option<f64>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct EffectsBody {
    /// With the standard pads.
    standard: EffectBody,
    /// With the pads on offer.
    on_offer: EffectBody,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct EffectBody {
    /// Share of all customers that is served before.
    before: ShareBody,
    /// Share of all customers that is served afterwards.
    after: ShareBody,
    /// The one less the other, with the error of the difference on the same customers.
    change: ShareBody,
    /// The change where profiles are off.
    change_spread: SpreadBody,
    /// How many of the customers are served only afterwards.
    won: u64,
    /// How many of them are served only before.
    lost: u64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct GroupBody {
    /// The label of the size.
    size: String,
    /// The circumference that the range means by it.
    circumference_mm: f64,
    /// long, intermediate or round.
    shape: String,
    /// Their share of those who win, or lose, 0 to 1.
    share: f64,
}

/// The document of a changed range.
#[must_use]
pub fn range_change(
    customers: &Customers<'_>,
    alterations: &[Alteration],
    changed: &Changed,
    cautions: &[&str],
) -> RangeChangeDocument {
    let changes = alterations.iter().zip(&changed.alone);
    RangeChangeDocument {
        schema: "lidladder.range-change/1".to_owned(),
        seed: customers.seed,
        customers: CustomersBody::from(customers),
        changes: changes.map(|(alteration, alone)| AlterationBody::of(alteration, alone)).collect(),
        together: EffectsBody::of(&changed.together),
        won: changed.won.iter().map(GroupBody::of).collect(),
        lost: changed.lost.iter().map(GroupBody::of).collect(),
        cautions: cautions.iter().map(|caution| (*caution).to_owned()).collect(),
    }
}

impl AlterationBody {
    fn of(alteration: &Alteration, alone: &Effects) -> Self {
        let (change, left_out) = match &alteration.what {
            What::Dropped => ("drop", Vec::new()),
            What::Added => ("add", Vec::new()),
            What::Like { .. } => ("add-like", Vec::new()),
            What::WithoutPads(left_out) => ("without-pads", left_out.iter().map(LeftOutBody::of).collect()),
        };
        let sizes = alteration.put.iter().flat_map(|model| model.sizes());
        Self {
            change: change.to_owned(),
            model: alteration.id.clone(),
            name: alteration.name.clone(),
            sizes: sizes.map(|(_, size)| size.label.to_string()).collect(),
            shape_index: alteration.put.as_ref().map(|model| model.interior.shape_index),
            left_out,
            alone: EffectsBody::of(alone),
        }
    }
}

impl LeftOutBody {
    fn of(left_out: &LeftOut) -> Self {
        let (zone, thickness_mm) = match left_out {
            LeftOut::All => (None, None),
            LeftOut::Zone(zone) => (Some(zone), None),
            LeftOut::Pad(zone, mm) => (Some(zone), Some(*mm)),
        };
        Self { zone: zone.map(|zone| zone.name().to_owned()), thickness_mm }
    }
}

impl EffectsBody {
    fn of(effects: &Effects) -> Self {
        Self { standard: EffectBody::of(&effects.standard), on_offer: EffectBody::of(&effects.on_offer) }
    }
}

impl EffectBody {
    fn of(effect: &Effect) -> Self {
        Self {
            before: ShareBody::from(effect.before),
            after: ShareBody::from(effect.after),
            change: ShareBody::from(effect.change.quote()),
            change_spread: SpreadBody::from(effect.spread),
            won: effect.change.won,
            lost: effect.change.lost,
        }
    }
}

impl GroupBody {
    fn of(group: &Group) -> Self {
        Self {
            size: group.size.to_string(),
            circumference_mm: round(group.circumference, 1),
            shape: ShapeWords::NAMES[group.shape].to_owned(),
            share: round(group.share, 4),
        }
    }
}
