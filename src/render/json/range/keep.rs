//! How few models serve how many, as a document: `lidladder.range-keep/1`.

use super::figures::{CustomersBody, ShareBody, SpreadBody};
use crate::range::{Customers, Fewer, FewerWanted, Pads, Subset, Worth};
use crate::render::json::common::round;
use schemars::JsonSchema;
use serde::Serialize;

/// The best subsets of the models, by their number.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "Smaller ranges of lidladder", extend("$id" = "urn:lidladder:range-keep:1"))]
pub struct RangeKeepDocument {
    /// `lidladder.range-keep/1`.
    #[schemars(extend("const" = "lidladder.range-keep/1"))]
    schema: String,
    seed: u64,
    customers: CustomersBody,
    /// The models of the whole range.
    models: Vec<String>,
    /// Of the customers that all models serve, the share that the smallest range must serve.
    wanted: f64,
    /// on-offer or standard: with which pads a customer counts as served.
    pads: String,
    /// Models that were asked to stay.
    always: Vec<String>,
    /// The best choice of each number of models: chosen on one half of the customers, told as the other half finds it.
    curve: Vec<SubsetBody>,
    /// The smallest range that serves the share that is wanted.
    smallest: SmallestBody,
    cautions: Vec<String>,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct SubsetBody {
    models: Vec<String>,
    /// Share of all customers that it serves with the pads on offer.
    on_offer: ShareBody,
    /// Share of all customers that it serves with the standard pads.
    standard: ShareBody,
    /// Of those that all models serve with the pads that count, the share that it serves.
    of_served: ShareBody,
    /// Whether no other choice of so many models serves more, on the half that chose.
    exact: bool,
    /// Another choice serves at most so much more of all customers, on the half that chose; 0 where it is exact.
    at_most_more: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct SmallestBody {
    /// How many models it has: the subset of this number on the curve.
    count: usize,
    /// Whether it is proven that no smaller one does, on the half that chose.
    exact: bool,
    /// Its models, each with the share of all customers whom no other of them serves.
    stay: Vec<WorthBody>,
    /// The other models, each with the share of all customers whom it alone would add.
    go: Vec<WorthBody>,
    /// The share of all customers that all models serve where profiles are off, with the pads that count.
    all_spread: SpreadBody,
    /// The same for the smallest range.
    spread: SpreadBody,
    /// The one as a share of the other, world by world.
    of_served_spread: SpreadBody,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct WorthBody {
    model: String,
    share: ShareBody,
}

/// The document of the best subsets.
#[must_use]
pub fn range_keep(
    customers: &Customers<'_>,
    wanted: &FewerWanted,
    fewer: &Fewer<'_>,
    cautions: &[&str],
) -> RangeKeepDocument {
    let name = |column: &usize| fewer.shelf.columns[*column].model.id.to_string();
    let names = |columns: &[usize]| columns.iter().map(name).collect();
    let subset = |subset: &Subset| SubsetBody {
        models: names(&subset.columns),
        on_offer: ShareBody::from(subset.on_offer),
        standard: ShareBody::from(subset.standard),
        of_served: ShareBody::from(subset.of_served),
        exact: subset.at_most_more <= 0.0,
        at_most_more: round(subset.at_most_more, 6),
    };
    let worth = |worth: &Worth| WorthBody { model: name(&worth.column), share: ShareBody::from(worth.share) };
    let [all_spread, spread, of_served_spread] = fewer.spreads.map(SpreadBody::from);
    RangeKeepDocument {
        schema: "lidladder.range-keep/1".to_owned(),
        seed: customers.seed,
        customers: CustomersBody::from(customers),
        models: fewer.shelf.columns.iter().map(|column| column.model.id.to_string()).collect(),
        wanted: round(wanted.keep, 6),
        pads: match wanted.pads {
            Pads::OnOffer => "on-offer".to_owned(),
            Pads::Standard => "standard".to_owned(),
        },
        always: names(&wanted.always),
        curve: fewer.curve.iter().map(subset).collect(),
        smallest: SmallestBody {
            count: fewer.curve[fewer.smallest].columns.len(),
            exact: fewer.is_smallest,
            stay: fewer.stay.iter().map(worth).collect(),
            go: fewer.go.iter().map(worth).collect(),
            all_spread,
            spread,
            of_served_spread,
        },
        cautions: cautions.iter().map(|caution| (*caution).to_owned()).collect(),
    }
}
