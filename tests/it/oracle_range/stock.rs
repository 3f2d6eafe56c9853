//! The drawer: what customers take by looking at every pad set, how many to have against tables and sums, and in which order
//! to buy against every order.

mod demand;
mod kits;
mod purchases;
mod uses;
