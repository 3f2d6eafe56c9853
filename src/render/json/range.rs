//! The range, for programs.

mod change;
mod design;
mod figures;
mod keep;
mod maker;
mod served;
mod stock;

pub use served::{RangeDocument, served};
pub use stock::{RangeStockDocument, range_stock};
