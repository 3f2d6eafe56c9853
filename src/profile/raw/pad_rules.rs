//! The group `pads` of `shop.yaml`.

use super::Number;
use crate::profile::schema::Price;
use schemars::JsonSchema;
use serde::Deserialize;

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawPadRules {
    /// Who pays for the pads that go into a customer's helmet.
    pub(crate) paid_by: RawPayer,
    /// Up to this sum a customer pays nothing for pads, in the shop's currency; above it, what is above it.
    #[schemars(with = "Price")]
    pub(crate) free_up_to: Number,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum RawPayer {
    /// The customer, beyond `free_up_to`.
    Customer,
    /// The shop, whatever it comes to.
    Shop,
}
