//! Pages about the range, for a buyer in a meeting.

mod change;
mod design;
mod keep;
mod maker;
mod served;
mod stock;

pub use change::range_change;
pub use design::range_design;
pub use keep::range_keep;
pub use maker::range_maker;
pub use served::{RangeReport, range};
pub use stock::range_stock;

use crate::range::Customers;
use crate::render::markup::escaped;
use crate::render::range_words::figures::{heads, whose};
use itertools::Itertools;

/// Whose page, and whose heads.
fn about(shop: &str, customers: &Customers<'_>) -> String {
    format!("{shop}. {} customers. {}", heads(customers.count), whose(customers))
}

/// Figures that answer the question, large; each with what it counts.
fn answer(figures: &[(String, String)]) -> String {
    let figure =
        |(figure, words): &(String, String)| format!("<li><b>{}</b> {}</li>\n", escaped(figure), escaped(words));
    format!("<ul class=\"answer\">\n{}</ul>\n", figures.iter().map(figure).join(""))
}

/// Large figures side by side where there is room, and tables of many columns. On paper only tables that may be longer than a
/// page are broken.
const STYLE: &str = "\
.answer { list-style: none; padding: 0; display: grid; grid-template-columns: repeat(auto-fit, minmax(9rem, 1fr)); gap: .6rem }
.answer li { background: var(--panel); border-left: .35rem solid var(--mark); padding: .5rem .8rem; margin: 0 }
.answer b { display: block; font-size: clamp(1.2rem, 5.5vw, 1.6rem); line-height: 1.2; white-space: nowrap }
.wide caption { max-width: calc(100vw - 1.8rem) }
.wide tbody th, .wide td:not(.n) { min-width: 8.5rem }
.models .wide tbody th { min-width: 10.5rem }
.overlap th, .overlap td { padding: .2rem .25rem; font-size: .85rem }
.overlap .wide tbody th { min-width: 9rem }
@media print { .answer { gap: 3mm } .answer b { font-size: 14pt } .overlap th, .overlap td { padding: .1rem .2rem }
  table { break-inside: avoid } .lines table, .said table, .contents table { break-inside: auto }
  .models .wide tbody th { min-width: 42mm } .shapes td, .shapes th { padding: 0 .5rem } }
";
