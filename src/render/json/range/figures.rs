//! Figures of a range as documents have them.

use crate::fit::Quote;
use crate::head::Measure;
use crate::range::{Customers, Figure, Spread};
use crate::render::json::common::{error, round};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// Decimals of a share: one customer in 100,000.
const DIGITS: i32 = 5;

/// Whose heads were counted.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(in crate::render::json) struct CustomersBody {
    /// The population that they were drawn from, or that filled up the table.
    population: String,
    /// The table that they stand in; null where they were drawn.
    table: Option<String>,
    count: u64,
    /// How many of them got a measure from the population that the table lacks, by measure.
    drawn: BTreeMap<String, u64>,
}

/// A share of all customers, 0 to 1, or a change of one, with its sampling error (four standard errors); the profiles at
/// their word.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(in crate::render::json) struct ShareBody {
    value: f64,
    error: f64,
}

/// A share over ranges whose helmets are off their profiles as far as these say.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(in crate::render::json) struct SpreadBody {
    mean: f64,
    /// One range in twenty has less.
    from: f64,
    /// One range in twenty has more.
    to: f64,
}

/// A share with both.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(in crate::render::json) struct FigureBody {
    share: ShareBody,
    if_profiles_are_off: SpreadBody,
}

#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(in crate::render::json) struct QuartilesBody {
    circumference_mm: [f64; 2],
    shape_index: [f64; 2],
}

impl From<&Customers<'_>> for CustomersBody {
    fn from(customers: &Customers<'_>) -> Self {
        let drawn = Measure::ALL.into_iter().zip(customers.drawn).filter(|(_, count)| *count > 0);
        Self {
            population: customers.population.id.to_string(),
            table: customers.table.clone(),
            count: customers.count,
            drawn: drawn.map(|(measure, count)| (measure.name().to_owned(), count)).collect(),
        }
    }
}

impl From<Quote> for ShareBody {
    fn from(quote: Quote) -> Self {
        Self { value: round(quote.value, DIGITS), error: error(quote, DIGITS) }
    }
}

impl From<Spread> for SpreadBody {
    fn from(spread: Spread) -> Self {
        let [mean, from, to] = [spread.mean, spread.from, spread.to].map(|share| round(share, DIGITS));
        Self { mean, from, to }
    }
}

impl From<Figure> for FigureBody {
    fn from(figure: Figure) -> Self {
        Self { share: figure.quote.into(), if_profiles_are_off: figure.spread.into() }
    }
}

impl From<[[f64; 2]; 2]> for QuartilesBody {
    fn from([circumference, index]: [[f64; 2]; 2]) -> Self {
        Self { circumference_mm: circumference.map(|mm| round(mm, 1)), shape_index: index.map(|index| round(index, 1)) }
    }
}
