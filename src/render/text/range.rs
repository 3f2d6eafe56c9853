//! The range, for people.

mod change;
mod design;
mod keep;
mod maker;
mod map;
mod served;
mod stock;

pub use change::range_change;
pub use design::range_design;
pub use keep::range_keep;
pub use maker::range_maker;
pub use served::served;
pub use stock::range_stock;

use crate::range::Customers;
use crate::render::range_words::figures::{heads, whose};
use crate::render::text::page::Page;

/// Whose heads were counted.
fn customers(page: &mut Page, customers: &Customers<'_>) {
    page.heading(&format!("CUSTOMERS  {}", heads(customers.count)));
    page.wrapped("  ", &whose(customers));
}
