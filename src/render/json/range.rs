//! The range, for programs.

mod change;
mod design;
mod keep;
mod maker;
mod served;
mod stock;

pub use stock::{RangeStockDocument, range_stock};
