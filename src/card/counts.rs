//! Heads of one kind, and how many of them a model fits.

use crate::fit::Quote;
use crate::range::share;

/// Heads, and how many of them a model fits in some size.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Counts {
    /// How many there are.
    pub heads: u64,
    /// How many it fits with its standard pads.
    pub standard: u64,
    /// How many it fits with some pads on offer.
    pub on_offer: u64,
}

impl Counts {
    /// Their shares with the sampling error: standard pads, pads on offer. `None` of no heads.
    #[must_use]
    pub fn shares(self) -> Option<[Quote; 2]> {
        (self.heads > 0).then(|| [self.standard, self.on_offer].map(|count| share(count, self.heads)))
    }

    /// Both together.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        Self {
            heads: self.heads + other.heads,
            standard: self.standard + other.standard,
            on_offer: self.on_offer + other.on_offer,
        }
    }

    /// One more head, which fits with standard pads, and with some pads, or doesn't.
    pub(super) fn add(&mut self, [standard, on_offer]: [bool; 2]) {
        self.heads += 1;
        self.standard += u64::from(standard);
        self.on_offer += u64::from(on_offer);
    }
}
