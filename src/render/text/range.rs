//! The range, for people.

mod change;
mod design;
mod keep;
mod maker;
mod served;
mod stock;

pub use stock::range_stock;
