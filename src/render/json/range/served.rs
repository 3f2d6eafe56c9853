//! Who is served, as a document: `lidladder.range/1`.

use super::figures::{CustomersBody, FigureBody, QuartilesBody, ShareBody};
use crate::catalogue::Catalogue;
use crate::range::{Alone, COLUMNS, Customers, Gap, Map, Own, ROWS, Region, Served};
use crate::render::json::common::round;
use itertools::Itertools;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// A range over all customers of a population.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "A range of lidladder over a population", extend("$id" = "urn:lidladder:range:1"))]
pub struct RangeDocument {
    /// `lidladder.range/1`.
    #[schemars(extend("const" = "lidladder.range/1"))]
    schema: String,
    seed: u64,
    customers: CustomersBody,
    currency: String,
    /// On how many of their heads best fits, gaps and `if_profiles_are_off` rest.
    looked_at_closely: usize,
    /// Something fits with its standard pads.
    served_with_standard_pads: FigureBody,
    /// Something fits with some pads on offer.
    served_with_pads_on_offer: FigureBody,
    by_type: Vec<TypeBody>,
    by_price: Vec<PriceBody>,
    models: Vec<ModelBody>,
    families: Vec<FamilyBody>,
    /// Regions in which most customers fit nothing, those that lose most customers first.
    gaps: Vec<GapBody>,
    /// Fit nothing and are in no such region.
    lost_elsewhere: ShareBody,
    /// Fit nothing.
    lost: ShareBody,
    /// Cells of the map that have customers, by circumference, then shape index.
    map: Vec<CellBody>,
    cautions: Vec<String>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct TypeBody {
    #[serde(rename = "type")]
    kind: String,
    #[serde(flatten)]
    part: PartBody,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct PriceBody {
    /// Helmets that cost more don't count; in cents.
    up_to_minor: u64,
    #[serde(flatten)]
    part: PartBody,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
struct PartBody {
    /// How many models they are.
    models: usize,
    served_with_standard_pads: ShareBody,
    served_with_pads_on_offer: ShareBody,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ModelBody {
    model: String,
    name: String,
    #[serde(flatten)]
    own: OwnBody,
    /// Of the customers whom it serves, the share that each other model serves, too, 0 to 1.
    also_served_by: BTreeMap<String, f64>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct FamilyBody {
    maker: String,
    family: String,
    models: Vec<String>,
    #[serde(flatten)]
    own: OwnBody,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
struct OwnBody {
    served_with_standard_pads: ShareBody,
    served_with_pads_on_offer: FigureBody,
    /// Served by nothing else.
    served_only_by_it: FigureBody,
    /// Those whom it fits most evenly of all.
    best_fit: ShareBody,
    /// Quartiles of these customers; null where they are too few.
    best_fit_at: Option<QuartilesBody>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct GapBody {
    region: RegionBody,
    /// All customers in it.
    customers: ShareBody,
    /// Of all customers, those in it who fit nothing.
    lost: ShareBody,
    nearest: Option<NearestBody>,
}

/// From and to; null is an open end.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct RegionBody {
    circumference_mm: [Option<f64>; 2],
    shape_index: [Option<f64>; 2],
    face_width_mm: [Option<f64>; 2],
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct NearestBody {
    model: String,
    size: String,
    /// Why it mostly fails, with the best pads on offer.
    reason: String,
    /// By how much, on average.
    miss_mm: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct CellBody {
    /// From there, 10 mm; the outermost cells take what lies beyond.
    circumference_mm: u32,
    /// From there, one point.
    shape_index: u8,
    heads: u64,
    served_with_standard_pads: u64,
    served_with_pads_on_offer: u64,
    /// How many models serve one of them with pads on offer, on average.
    models: f64,
}

/// The document.
#[must_use]
pub fn served(
    catalogue: &Catalogue,
    customers: &Customers<'_>,
    served: &Served<'_>,
    cautions: &[&str],
) -> RangeDocument {
    RangeDocument {
        schema: "lidladder.range/1".to_owned(),
        seed: customers.seed,
        customers: customers.into(),
        currency: catalogue.shop.currency.to_string(),
        looked_at_closely: served.kept,
        served_with_standard_pads: FigureBody::from(served.standard),
        served_with_pads_on_offer: FigureBody::from(served.on_offer),
        by_type: served
            .by_kind
            .iter()
            .map(|part| TypeBody { kind: part.which.name().to_owned(), part: of(part) })
            .collect(),
        by_price: served
            .by_price
            .iter()
            .map(|part| PriceBody { up_to_minor: part.which.minor(), part: of(part) })
            .collect(),
        models: models(served),
        families: served.families.iter().map(family).collect(),
        gaps: served.gaps.gaps.iter().map(gap).collect(),
        lost_elsewhere: ShareBody::from(served.gaps.elsewhere),
        lost: ShareBody::from(served.gaps.lost),
        map: map(&served.map),
        cautions: cautions.iter().map(|caution| (*caution).to_owned()).collect(),
    }
}

fn of<T>(part: &Alone<T>) -> PartBody {
    PartBody {
        models: part.models,
        served_with_standard_pads: ShareBody::from(part.standard),
        served_with_pads_on_offer: ShareBody::from(part.on_offer),
    }
}

fn models(served: &Served<'_>) -> Vec<ModelBody> {
    let ids = served.models.iter().map(|own| own.models[0].id.to_string()).collect_vec();
    let rows = served.models.iter().zip(&served.overlap).enumerate();
    rows.map(|(at, (model, row))| ModelBody {
        model: ids[at].clone(),
        name: model.models[0].name.clone(),
        own: own(model),
        also_served_by: ids
            .iter()
            .cloned()
            .zip(row.iter().map(|share| round(*share, 4)))
            .filter(|(id, _)| *id != ids[at])
            .collect(),
    })
    .collect()
}

fn family((maker, family, owned): &(&str, &str, Own<'_>)) -> FamilyBody {
    FamilyBody {
        maker: (*maker).to_owned(),
        family: (*family).to_owned(),
        models: owned.models.iter().map(|model| model.id.to_string()).collect(),
        own: own(owned),
    }
}

fn own(own: &Own<'_>) -> OwnBody {
    OwnBody {
        served_with_standard_pads: ShareBody::from(own.standard),
        served_with_pads_on_offer: FigureBody::from(own.on_offer),
        served_only_by_it: FigureBody::from(own.only),
        best_fit: ShareBody::from(own.best),
        best_fit_at: own.best_at.map(QuartilesBody::from),
    }
}

fn gap(gap: &Gap<'_>) -> GapBody {
    GapBody {
        region: region(&gap.region),
        customers: ShareBody::from(gap.customers),
        lost: ShareBody::from(gap.lost),
        nearest: gap.nearest.map(|nearest| NearestBody {
            model: nearest.model.id.to_string(),
            size: nearest.size.label.to_string(),
            reason: nearest.reason.id().to_owned(),
            miss_mm: round(nearest.miss, 1),
        }),
    }
}

fn region(region: &Region) -> RegionBody {
    RegionBody {
        circumference_mm: region.circumference(),
        shape_index: region.shape_index(),
        face_width_mm: region.face_width(),
    }
}

fn map(map: &Map) -> Vec<CellBody> {
    let cells = ROWS.cartesian_product(COLUMNS).map(|(row, column)| (row, column, map.cell(row, column)));
    let filled = cells.filter(|(_, _, cell)| cell.heads > 0);
    filled
        .map(|(row, column, cell)| CellBody {
            circumference_mm: u32::from(row) * 10,
            shape_index: column,
            heads: cell.heads,
            served_with_standard_pads: cell.standard,
            served_with_pads_on_offer: cell.on_offer,
            models: round(cell.mean_helmets(), 2),
        })
        .collect()
}
