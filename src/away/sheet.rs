//! What a measuring sheet for home has to say, beside words: the measures in their order and how exact they come out.

use super::home_tool;
use crate::catalogue::Catalogue;
use crate::head::Measure;
use crate::profile::{Measurer, Tool};

/// A measuring sheet for home.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet<'a> {
    /// The shop that it comes from.
    pub shop: &'a str,
    /// What to measure, in this order.
    pub spots: Vec<Spot>,
}

/// One measure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot {
    /// Which.
    pub measure: Measure,
    /// With what.
    pub tool: Tool,
    /// How far one reading by a customer is off, mm; `None` where the shop says nothing.
    pub sd: Option<f64>,
    /// Two readings that differ by more hardly ever do: measure again. Whole mm.
    pub far_apart: Option<f64>,
}

/// The sheet of a shop.
#[must_use]
pub fn sheet(catalogue: &Catalogue) -> Sheet<'_> {
    let shop = &catalogue.shop;
    let spot = |measure| {
        let tool = home_tool(measure);
        let sd = shop.reading_sd(Measurer::Customer, tool);
        Spot { measure, tool, sd, far_apart: sd.map(|sd| shop.away.far_apart(sd).ceil().max(1.0)) }
    };
    Sheet { shop: &shop.name, spots: Measure::ALL.map(spot).to_vec() }
}
