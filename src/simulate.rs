//! Invented customers with true heads, in helmets as they truly are: what a shop would write into its journal, and the
//! truth behind it.
//!
//! A [`World`] has helmets that differ from their profiles. [`Habits`] say who comes in and what is measured. A
//! [`Fitter`] plans with the profiles as the shop believes them. [`simulate`] lets customers come in one after the
//! other; each follows the plan, try by try, and leaves a [`Visit`]: records as a counter writes them, beside the truth.
//!
//! Draws are independent and come from a named generator (PCG, O'Neill 2014), not from the sequence that plans use:
//! low-discrepancy heads are more even than customers are, and a count of them would look better than it is. The same
//! seed gives the same customers, in whichever world they meet.

mod chance;
mod fitter;
mod habits;
mod session;
#[cfg(test)]
mod tests;
mod tryout;
mod world;

pub use chance::Chance;
pub use fitter::Fitter;
pub use habits::{Habits, Heads, Shape, Situation, Taken, seen_index};
pub use session::{Tried, Visit, simulate};
pub use tryout::heard;
pub use world::{Offset, World};
