//! The range against computations and figures from elsewhere.

mod keep;
mod laws;
pub(crate) mod men;
mod plain;
mod sql;
mod stock;

use crate::laws::RANGE;
use lidladder::head::{EffectiveHead, Particles, Population, Posterior};
use lidladder::profile::Model;
use lidladder::range::{Column, Shelf, Tally, taken, tally};

fn adults() -> &'static Population {
    RANGE.population("adults").expect("part of the demo range")
}

/// Heads of the shop's customers.
fn heads(count: usize) -> Particles {
    Particles::draw(&Posterior::new(adults(), &[], None), count, 77, 0)
}

/// Models side by side under the demo shop's rules.
fn shelf(models: &[Model]) -> Shelf<'_> {
    Shelf::new(models.iter().map(|model| Column::of(model, &RANGE)).collect(), RANGE.shop.fit)
}

fn counted(models: &[Model], heads: &Particles) -> Tally {
    tally(&shelf(models), &taken(heads, RANGE.shop.fit.outline), None)
}

fn effective(heads: &Particles) -> impl Iterator<Item = EffectiveHead> {
    (0..heads.len()).map(|head| RANGE.shop.fit.outline.effective(heads.head(head)))
}
