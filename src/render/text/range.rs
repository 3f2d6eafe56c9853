//! The range, for people.

mod change;
mod design;
mod figures;
mod keep;
mod maker;
mod map;
mod served;
mod stock;
mod words;

pub(in crate::render) use figures::{between, of_hundred};

pub use change::range_change;
pub use design::range_design;
pub use keep::range_keep;
pub use maker::range_maker;
pub use served::served;
pub use stock::range_stock;
