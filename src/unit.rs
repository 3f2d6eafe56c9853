//! Checked quantities and names that the rest of the program is written in.

mod id;
mod money;

pub use id::{BadId, Id};
pub use money::{BadMoney, Currency, Money};
