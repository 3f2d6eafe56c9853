//! Heads that are kept for a closer look, out of any number.

use crate::head::{Dimensions, Particles};

/// At most so many heads are looked at more closely.
pub const KEPT: usize = 1 << 17;

/// Every head, every second, every fourth ... of all: as many as may be kept.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Kept {
    stride: u64,
    heads: Vec<(u64, Dimensions)>,
}

impl Default for Kept {
    fn default() -> Self {
        Self { stride: 1, heads: Vec::new() }
    }
}

impl Kept {
    /// Keeps what it must of heads, the first of which has this number.
    pub(super) fn add(&mut self, first: u64, heads: &Particles) {
        let numbers = (first..).zip(0..heads.len()).skip_while(|(number, _)| !number.is_multiple_of(self.stride));
        for (number, head) in numbers.step_by(usize::try_from(self.stride).unwrap_or(usize::MAX)) {
            self.heads.push((number, heads.head(head)));
        }
        self.thin();
    }

    /// Puts the heads of two parts together. Which are kept depends on the numbers of all heads alone.
    pub(super) fn merge(&mut self, other: Self) {
        self.heads.extend(other.heads);
        self.stride = self.stride.max(other.stride);
        self.heads.retain(|(number, _)| number.is_multiple_of(self.stride));
        self.thin();
    }

    /// The heads in their order, all with the same weight.
    pub(super) fn heads(mut self) -> Particles {
        self.heads.sort_by_key(|(number, _)| *number);
        Particles::of(self.heads.into_iter().map(|(_, head)| head))
    }

    fn thin(&mut self) {
        while self.heads.len() > KEPT {
            self.stride *= 2;
            self.heads.retain(|(number, _)| number.is_multiple_of(self.stride));
        }
    }
}
