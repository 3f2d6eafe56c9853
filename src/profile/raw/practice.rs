//! `practice`: how the command `drill` reads what a trainee does.

use super::Number;
use crate::profile::bounds;
use crate::profile::schema::within;
use schemars::JsonSchema;
use serde::Deserialize;

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawPractice {
    /// A choice is a slip if it costs this many minutes more than the best one.
    #[schemars(transform = within(bounds::SLIP_MINUTES))]
    pub(crate) slip_from: Number,
    /// Who slips in this share of the choices where it can be should practise it.
    #[schemars(transform = within(bounds::SHARE))]
    pub(crate) weak_from: Number,
    /// That somebody should practise something is said once it is this probable.
    #[schemars(transform = within(bounds::SURE_FROM))]
    pub(crate) sure_from: Number,
    /// In what share of the choices somebody slips who has it in hand.
    #[schemars(transform = within(bounds::SHARE))]
    pub(crate) usual_slips: Number,
    /// How many choices that counts for, beside those that were seen.
    #[schemars(transform = within(bounds::CHOICES))]
    pub(crate) usual_weight: Number,
    /// So many choices where a habit could be slipped into count, those of earlier runs behind those of this one.
    #[schemars(transform = within(bounds::LOOKS_BACK))]
    pub(crate) looks_back: Number,
    /// A head whose shape is less probable than this is no fair question.
    #[schemars(transform = within(bounds::SHARE))]
    pub(crate) clear_shape: Number,
    /// So many customers after a slip its like comes again; twice as many each time after that went well.
    #[schemars(transform = within(bounds::AGAIN_AFTER))]
    pub(crate) again_after: Number,
    /// So many days after a slip its like comes again; twice as many each time after that went well.
    #[schemars(transform = within(bounds::AGAIN_AFTER))]
    pub(crate) again_after_days: Number,
}
