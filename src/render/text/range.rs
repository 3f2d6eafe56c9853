//! The range, for people.

mod change;
mod design;
mod figures;
mod keep;
mod maker;
mod served;
mod stock;

pub use change::range_change;
pub use keep::range_keep;
