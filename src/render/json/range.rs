//! The range, for programs.

mod change;
mod design;
mod figures;
mod keep;
mod maker;
mod served;
mod stock;

pub use change::{RangeChangeDocument, range_change};
pub use keep::{RangeKeepDocument, range_keep};
