//! One head in one model as a document: `lidladder.fit/1`.

use super::common::{Head, Warning, error, pads, probability, round};
use crate::catalogue::Catalogue;
use crate::fit::{Customer, Inspection, SetVerdict, ZoneCut, zone_cuts};
use crate::profile::{Axis, FitRules};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// One head in one model and size.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "A fit of lidladder", extend("$id" = "urn:lidladder:fit:1"))]
pub struct FitDocument {
    /// `lidladder.fit/1`.
    #[schemars(extend("const" = "lidladder.fit/1"))]
    schema: String,
    seed: u64,
    head: Head,
    model: String,
    size: String,
    /// Every size of the model with its chance.
    sizes: Vec<SizeBody>,
    /// Chance of a good fit with some of the pads on offer, the errors of measures and profile included.
    fit_probability: f64,
    fit_probability_error: f64,
    /// Whether the expected head fits with `pads`, the profile taken at its word.
    fits: bool,
    /// The best pads, mm by zone.
    pads: BTreeMap<String, f64>,
    /// The expected head with these pads.
    zones: Vec<ZoneBody>,
    /// Why it doesn't fit even so.
    reason: Option<String>,
    minutes: f64,
    price_minor: u64,
    currency: String,
    /// The other pad sets, the best first.
    other_pads: Vec<OtherPads>,
    warnings: Vec<Warning>,
    cautions: Vec<String>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct SizeBody {
    size: String,
    fit_probability: f64,
    fit_probability_error: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ZoneBody {
    /// brow and rear share the axis front to back, and so their strain.
    zone: String,
    thickness_mm: f64,
    strain: f64,
    /// loose, light, good, tight or hot spot.
    band: String,
    /// How much smaller (above 0: too tight) or larger (below 0: too loose) the head would have to be to be good on this
    /// axis, brow and rear or both sides together; 0 where it is.
    beyond_good_mm: f64,
    /// How often the axis is too loose, good and too tight whatever the pads, all errors included.
    too_loose_probability: f64,
    good_probability: f64,
    too_tight_probability: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct OtherPads {
    pads: BTreeMap<String, f64>,
    fits: bool,
    reason: Option<String>,
    /// Squared distances from the ideal strain, added up: 0 is perfectly even.
    unevenness: f64,
    swaps: usize,
    minutes: f64,
    price_minor: u64,
}

/// The document of an inspection.
#[must_use]
pub fn fit(
    catalogue: &Catalogue,
    customer: &Customer<'_>,
    inspection: &Inspection<'_>,
    (warnings, cautions): (Vec<Warning>, &[&str]),
) -> FitDocument {
    let best = inspection.verdict.best();
    let sizes = inspection.sizes.iter().map(|chance| SizeBody {
        size: chance.size.to_string(),
        fit_probability: probability(chance.fit),
        fit_probability_error: error(chance.fit, 4),
    });
    FitDocument {
        schema: "lidladder.fit/1".to_owned(),
        seed: customer.seed,
        head: Head::of(customer, &inspection.head),
        model: inspection.candidate.model.id.to_string(),
        size: inspection.candidate.size.label.to_string(),
        sizes: sizes.collect(),
        fit_probability: probability(inspection.fit),
        fit_probability_error: error(inspection.fit, 4),
        fits: best.fits(),
        pads: pads(&best.pads),
        zones: zones(inspection, &catalogue.shop.fit),
        reason: best.reason.map(|reason| reason.id().to_owned()),
        minutes: round(best.minutes, 2),
        price_minor: best.price.minor(),
        currency: catalogue.shop.currency.to_string(),
        other_pads: inspection.verdict.sets[1..].iter().map(other).collect(),
        warnings,
        cautions: cautions.iter().map(|line| (*line).to_owned()).collect(),
    }
}

fn zones(inspection: &Inspection<'_>, rules: &FitRules) -> Vec<ZoneBody> {
    let body = |cut: &ZoneCut| {
        let axis = Axis::ALL.iter().position(|axis| cut.zone.axis() == Some(*axis))?;
        let (pad, squeeze) = (cut.pad?, cut.squeeze?);
        let [loose, good, tight] = inspection.classes[axis].map(probability);
        Some(ZoneBody {
            zone: cut.zone.name().to_owned(),
            thickness_mm: pad,
            strain: round(squeeze.strain, 4),
            band: squeeze.band.name().to_owned(),
            beyond_good_mm: round(squeeze.beyond, 2),
            too_loose_probability: loose,
            good_probability: good,
            too_tight_probability: tight,
        })
    };
    zone_cuts(inspection.verdict.best(), rules).iter().filter_map(body).collect()
}

fn other(set: &SetVerdict) -> OtherPads {
    OtherPads {
        pads: pads(&set.pads),
        fits: set.fits(),
        reason: set.reason.map(|reason| reason.id().to_owned()),
        unevenness: round(set.unevenness, 4),
        swaps: set.swaps,
        minutes: round(set.minutes, 2),
        price_minor: set.price.minor(),
    }
}
