//! `learning`: how journals weigh against the profiles.

use super::Number;
use crate::profile::bounds;
use crate::profile::schema::within;
use schemars::JsonSchema;
use serde::Deserialize;

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawLearning {
    /// One customer in so many is kept apart, to judge what was learned from the others.
    #[schemars(transform = within(bounds::HELD_OUT))]
    pub(crate) held_out: Number,
    /// Fewer customers than this change nothing.
    #[schemars(transform = within(bounds::COUNTED))]
    pub(crate) least_customers: Number,
    /// A change is proposed for what moved by so many of its new standard deviations.
    #[schemars(transform = within(bounds::CLEAR_SDS))]
    pub(crate) clear_sds: Number,
    /// And only where no more than this share of the old standard deviation is left.
    #[schemars(transform = within(bounds::SHARE))]
    pub(crate) narrowed: Number,
    /// The shop's `misreport` counts as much as so many failures.
    #[schemars(transform = within(bounds::COUNTED))]
    pub(crate) misreport_failures: Number,
    /// A standard deviation under `measuring` may be off by this factor: one standard deviation of its logarithm.
    #[schemars(transform = within(bounds::FACTOR))]
    pub(crate) measuring_factor: Number,
    /// The shop's `population` counts as much as so many measured customers.
    #[schemars(transform = within(bounds::COUNTED))]
    pub(crate) population_customers: Number,
}
