//! What is told of some models, on every kind of page.

use crate::card::Cards;
use crate::catalogue::Catalogue;
use crate::range::Customers;

/// Cards with what was asked.
#[derive(Debug, Clone, Copy)]
pub struct CardDeck<'r> {
    /// The profiles.
    pub catalogue: &'r Catalogue,
    /// Whose heads were counted.
    pub customers: &'r Customers<'r>,
    /// The answer.
    pub cards: &'r Cards<'r>,
    /// What must be said on each card.
    pub cautions: &'r [&'r str],
}
