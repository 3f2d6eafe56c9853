//! The group `away` of `shop.yaml`.

use super::Number;
use crate::profile::bounds;
use crate::profile::schema::{Price, within};
use schemars::JsonSchema;
use serde::Deserialize;

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawAway {
    /// What it costs to send one helmet, in the shop's currency.
    #[schemars(with = "Price")]
    pub(crate) postage_out: Number,
    /// What it costs to have one helmet sent back, in the shop's currency.
    #[schemars(with = "Price")]
    pub(crate) postage_back: Number,
    /// What a helmet that comes back costs besides: looking at it, cleaning, packing, the lower price.
    #[schemars(with = "Price")]
    pub(crate) handling: Number,
    /// What a visit costs customer and shop together, in the shop's currency.
    #[schemars(with = "Price")]
    pub(crate) visit: Number,
    /// What a minute of the shop costs where pads are swapped before a helmet is sent.
    #[schemars(with = "Price")]
    pub(crate) minute: Number,
    /// An order whose chance of a fit is below this share isn't proposed: 0.6 is 60 in 100.
    #[schemars(transform = within(bounds::SHARE))]
    pub(crate) least_chance: Number,
    /// Of the variance of a reading, the share that is the same each time the same person measures.
    #[schemars(transform = within(bounds::SHARE))]
    pub(crate) repeated_error: Number,
}
