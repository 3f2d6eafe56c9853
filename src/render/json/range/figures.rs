//! Figures of a range as documents have them.

use crate::fit::Quote;
use crate::range::{Figure, Spread};
//! Figures of a range in documents.

use crate::fit::Quote;
use crate::range::{Customers, Spread};
use crate::render::json::common::{error, round};
use schemars::JsonSchema;
use serde::Serialize;

/// A share of all customers, 0 to 1, with its sampling error (four standard errors); the profiles at their word.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct ShareBody {
/// Digits of a share: a head of a hundred thousand shows.
const DIGITS: i32 = 6;

/// Whose heads were counted.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct CustomersBody {
    /// The population that they were drawn from, or that filled up the table.
    population: String,
    /// The table that they stand in; null where they were drawn.
    table: Option<String>,
    count: u64,
}

/// A share, 0 to 1, or a change of one, with its sampling error (four standard errors).
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct FigureBody {
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
    from: f64,
    to: f64,
}

impl CustomersBody {
    pub(super) fn of(customers: &Customers<'_>) -> Self {
        Self { population: customers.population.id.to_string(), table: customers.table.clone(), count: customers.count }
    }
}

impl FigureBody {
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
        let [mean, from, to] = [spread.mean, spread.from, spread.to].map(|value| round(value, DIGITS));
        Self { mean, from, to }
    }
}
