//! What is said of a range in words: the same on every kind of page.

pub(super) mod change;
pub(super) mod design;
pub(super) mod figures;
pub(super) mod heads;
pub(super) mod keep;
pub(super) mod maker;
pub(super) mod served;
pub(super) mod stock;
