//! The command `range`.

mod change;
mod design;
mod keep;
mod maker;
mod pages;
mod served;
mod stock;
mod table;
mod windows;
