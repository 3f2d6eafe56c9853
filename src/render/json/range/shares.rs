//! Shares of all customers in documents.

use crate::fit::Quote;
use crate::range::Spread;
use crate::render::json::common::{error, round};
use schemars::JsonSchema;
use serde::Serialize;

/// A share of all customers, or a difference of shares, with the profiles at their word.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct ShareBody {
    share: f64,
    /// Its sampling error: four standard errors.
    error: f64,
}

/// The same share over worlds in which the profiles are off as far as they say.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct SpreadBody {
    mean: f64,
    /// One world in twenty has less.
    from: f64,
    /// One world in twenty has more.
    to: f64,
}

impl From<Quote> for ShareBody {
    fn from(quote: Quote) -> Self {
        Self { share: round(quote.value, 5), error: error(quote, 5) }
    }
}

impl From<Spread> for SpreadBody {
    fn from(spread: Spread) -> Self {
        Self { mean: round(spread.mean, 5), from: round(spread.from, 5), to: round(spread.to, 5) }
    }
}
