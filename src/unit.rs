//! Checked quantities and names that the rest of the program is written in.

mod id;
mod money;
mod plain;
mod progress;

pub use id::{BadId, Id};
pub use money::{BadMoney, Balance, Currency, Money};
pub use plain::plain;
pub use progress::Progress;
