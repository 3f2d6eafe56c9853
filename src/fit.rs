//! A head in a helmet: the strain of the foam on each axis, whether it is good, and why not.
//!
//! Foam of total thickness T on an axis fills the room between the head and the shell's liner. With y mm of
//! room left to it, its strain is 1 − y/T. Another pad changes T and leaves the liner where it is, so each
//! axis of a (model, size) has one cavity, and each pad choice a window of rooms in which it is good.

mod axis;
mod candidate;
mod cross_section;
mod customer;
mod heads;
mod inspect;
mod interior;
mod outcomes;
mod padset;
mod quote;
mod typical;
mod verdict;
mod windows;

pub use axis::{AxisOption, AxisTable, Cell};
pub use candidate::Candidate;
pub use cross_section::{CrossSection, Squeeze, ZoneCut, at_best, cross_section, zone_cuts};
pub use customer::{Customer, JUDGES, Worn};
pub use heads::{Estimate, HeadSet, estimate};
pub(crate) use heads::{report_chance, reported};
pub use inspect::{Inspection, SizeChance, inspect};
pub use interior::{Nominal, foam, implied_cavity};
pub use outcomes::{EffectiveHeads, FIT, Good, Outcomes, evaluate};
pub use padset::{PadSet, changed, minutes_between, pad_sets, price, swap_minutes, with_pads};
pub use quote::Quote;
pub use typical::typical_pads;
pub use verdict::{Band, SetVerdict, Verdict, judged, verdict};
pub use windows::Reach;
