//! The range, for people.

mod change;
mod design;
mod keep;
mod maker;
mod served;
mod shares;
mod stock;

pub use design::range_design;
pub use maker::range_maker;
