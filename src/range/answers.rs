//! What fits heads at hand, head by head.

use super::shelf::{Shelf, World};
use super::tally::Pattern;

/// For each head the columns of a shelf that fit it.
#[derive(Debug, Clone, PartialEq)]
pub struct Answers {
    /// Words of each of the two bitmaps of a head.
    words: usize,
    bits: Vec<u64>,
}

impl Answers {
    /// Asks a shelf about heads that take so much room, with the profiles at their word or off as in a world.
    #[must_use]
    pub fn of(shelf: &Shelf<'_>, taken: &[Vec<f64>; 3], world: Option<&World>) -> Self {
        let mut bits = Vec::new();
        shelf.index(world).ask(taken, &mut bits);
        Self { words: shelf.words(), bits }
    }

    /// What fits each head, in their order.
    pub fn patterns(&self) -> impl Iterator<Item = Pattern<'_>> {
        self.bits.chunks_exact(2 * self.words).map(|bits| Pattern::of(bits, self.words))
    }

    /// The bitmaps of all heads, one after the other.
    pub(super) fn bits(&self) -> &[u64] {
        &self.bits
    }
}
