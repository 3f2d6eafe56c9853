//! `buying` and `stocking`: what a buyer asks of the range.

use super::Number;
use crate::profile::bounds;
use crate::profile::schema::within;
use schemars::JsonSchema;
use serde::Deserialize;

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawBuying {
    /// Where at least this share of the customers fit nothing, there is a gap in the range.
    #[schemars(transform = within(bounds::SHARE))]
    pub(crate) gap_from: Number,
    /// A gap that loses a smaller share of all customers isn't told on its own.
    #[schemars(transform = within(bounds::SHARE))]
    pub(crate) least_gap: Number,
    /// A smaller range keeps this share of the customers that are served now.
    #[schemars(transform = within(bounds::SHARE))]
    pub(crate) keep: Number,
    /// A size or a tunable zone of a new model must win this share of all customers.
    #[schemars(transform = within(bounds::SHARE))]
    pub(crate) least_gain: Number,
    /// From one pad of a new model's tunable zone to the next, in mm of thickness.
    #[schemars(transform = within(bounds::PAD_STEP_MM))]
    pub(crate) pad_step_mm: Number,
    /// So many thinner and so many thicker pads are on offer for such a zone.
    #[schemars(transform = within(bounds::PADS_EACH_WAY))]
    pub(crate) pads_each_way: Number,
}

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawStocking {
    /// Customers that come in for a helmet in a week.
    #[schemars(transform = within(bounds::CUSTOMERS_PER_WEEK))]
    pub(crate) customers_per_week: Number,
    /// Days from ordering a pad to having it.
    #[schemars(transform = within(bounds::DELIVERY_DAYS))]
    pub(crate) delivery_days: Number,
    /// The probability with which a pad is in the drawer whenever it is wanted until the next delivery.
    #[schemars(transform = within(bounds::SERVICE_LEVEL))]
    pub(crate) service_level: Number,
    /// What the shop earns with a pad, as a share of its price; with it the stock is that of the least expected loss.
    #[serde(default)]
    #[schemars(transform = within(bounds::SHARE))]
    pub(crate) margin: Option<Number>,
    /// What a pad that isn't wanted until the next delivery costs, as a share of its price.
    #[schemars(transform = within(bounds::SHARE))]
    pub(crate) left_over_loss: Number,
}
