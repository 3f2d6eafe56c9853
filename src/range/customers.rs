//! Whose heads were counted.

use crate::head::Population;

/// Whose heads were counted, for whoever reads what came of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Customers<'a> {
    /// The population that they were drawn from, or that filled up the table.
    pub population: &'a Population,
    /// The table that they stand in, where they weren't drawn.
    pub table: Option<String>,
    /// How many there are.
    pub count: u64,
    /// By measure: how many of them lack it in the table and got one that was drawn.
    pub drawn: [u64; 4],
    /// The seed of every draw.
    pub seed: u64,
}

impl Customers<'_> {
    /// Whose they are: `the population Men`, `the table heads.csv`.
    #[must_use]
    pub fn whose(&self) -> String {
        match &self.table {
            None => format!("the population {}", self.population.name),
            Some(table) => format!("the table {table}"),
        }
    }
}
