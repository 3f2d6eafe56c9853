//! Which motorcycle helmet to try first on a measured head, and what to try next for every reason it may fail.
//!
//! The whole way from a tape reading to a plan:
//!
//! ```
//! use lidladder::catalogue::{Origin, load};
//! use lidladder::diag::Sources;
//! use lidladder::fit::Customer;
//! use lidladder::head::{Measure, Posterior, Reading};
//! use lidladder::plan::{Lead, Query, plan};
//!
//! let catalogue = load(&Origin::BuiltIn, &mut Sources::default()).expect("the demo range is in order");
//! let population = catalogue.population("adults").expect("part of the demo range");
//! let readings = vec![Reading { measure: Measure::Circumference, value: 575.0, sd: 3.0 }];
//! let customer = Customer {
//!     head: Posterior::new(population, &readings, None),
//!     readings,
//!     population: population.id.clone(),
//!     worn: Vec::new(),
//!     seed: 1,
//! };
//! let models = catalogue.models().iter().collect();
//! let query = Query { customer, models, absent: Vec::new(), tries: 4, minutes: None, lead: Lead::ShopFirst };
//! let made = plan(&catalogue, &query);
//! let first = made.first.expect("something fits such a head");
//! assert!(first.fit.value > 0.5);
//! ```
//!
//! Modules, from the bottom up: [`mod@unit`] and [`diag`]; [`head`] (measures, populations, what readings say);
//! [`profile`] and [`catalogue`] (what the shop wrote down); [`fit`] (a head in a pad set); [`fallback`] (the
//! shop's own rules); [`layered`] (places for drawings of graphs); [`plan`]; [`sketch`] (a profile from experience); [`range`] (helmets over a population); [`card`] (one page about each model); [`render`] and [`cli`]. Imports point down only.
//!
//! What this library does not do: it reads no scans, it knows no real helmets, and it replaces no fit check.

pub mod audit;
pub mod away;
pub mod card;
pub mod catalogue;
pub mod check;
pub mod cli;
pub mod counter;
pub mod diag;
pub mod drill;
pub mod fallback;
pub mod fit;
pub mod head;
pub mod journal;
pub mod layered;
pub mod learn;
pub mod plan;
pub mod profile;
pub mod range;
pub mod render;
pub mod score;
pub mod simulate;
pub mod sketch;
pub mod supply;
pub mod unit;
