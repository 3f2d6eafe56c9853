//! Figures of a range as documents have them.

use crate::fit::Quote;
use crate::range::{Figure, Spread};
use crate::render::json::common::{error, round};
use schemars::JsonSchema;
use serde::Serialize;

/// A share of all customers, 0 to 1, with its sampling error (four standard errors); the profiles at their word.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct ShareBody {
    value: f64,
    error: f64,
}

/// A share over ranges whose helmets are off their profiles as far as these say.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct SpreadBody {
    mean: f64,
    /// One range in twenty has less.
    from: f64,
    /// One range in twenty has more.
    to: f64,
}

/// A share with both.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct FigureBody {
    share: ShareBody,
    if_profiles_are_off: SpreadBody,
}

impl ShareBody {
    pub(super) fn of(quote: Quote) -> Self {
        Self { value: round(quote.value, DIGITS), error: error(quote, DIGITS) }
    }
}

impl SpreadBody {
    pub(super) fn of(spread: Spread) -> Self {
        let [mean, from, to] = [spread.mean, spread.from, spread.to].map(|share| round(share, DIGITS));
        Self { mean, from, to }
    }
}

impl FigureBody {
    pub(super) fn of(figure: Figure) -> Self {
        Self { share: ShareBody::of(figure.quote), if_profiles_are_off: SpreadBody::of(figure.spread) }
    }
}

/// Decimals of a share: one customer in 100,000.
const DIGITS: i32 = 5;
