//! Figures of a range in documents.

use crate::fit::Quote;
use crate::range::{Customers, Spread};
use crate::render::json::common::{error, round};
use schemars::JsonSchema;
use serde::Serialize;

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

/// A figure where profiles are off as far as they say: its mean, and where nine in ten of its values lie.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct SpreadBody {
    mean: f64,
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
        let [mean, from, to] = [spread.mean, spread.from, spread.to].map(|value| round(value, DIGITS));
        Self { mean, from, to }
    }
}
