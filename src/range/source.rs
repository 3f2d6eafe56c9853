//! Where heads come from, in pieces that threads can share.

use crate::head::{Particles, Population, Posterior};
use crate::unit::Progress;

/// Heads that stand next to each other in their order.
#[derive(Debug, Clone, PartialEq)]
pub struct Chunk {
    /// The number of the first of them among all heads.
    pub first: u64,
    /// The heads; each counts the same.
    pub heads: Particles,
    /// By measure: how many of them lack it in a table and got one that was drawn. All 0 where whole heads are drawn.
    pub drawn: [u64; 4],
}

/// Heads in an order that never changes. Pieces of work are handed out one after the other and done anywhere: what comes
/// of a piece depends on nothing but the piece.
pub trait Source: Send {
    /// A piece of work.
    type Piece: Send;
    /// Why there are no heads: everything that is wrong.
    type Fault: Send;

    /// The next piece; `None` at the end.
    fn next(&mut self) -> Option<Result<Self::Piece, Self::Fault>>;

    /// The heads of a piece, or everything that is wrong with it.
    fn heads(piece: Self::Piece) -> Result<Chunk, Self::Fault>;

    /// What is wrong with two pieces, whichever comes first.
    fn both(one: Self::Fault, other: Self::Fault) -> Self::Fault;

    /// How much has been handed out; of 0 in all where nobody knows how much will come.
    fn progress(&self) -> Progress;
}

/// Heads of a chunk that is drawn; each chunk is a scramble of its own.
pub const CHUNK: u64 = 16_384;

/// Heads drawn from a population.
#[derive(Debug, Clone)]
pub struct Drawn {
    anybody: Posterior,
    seed: u64,
    heads: u64,
    next: u64,
}

/// Heads that are drawn together.
#[derive(Debug, Clone)]
pub struct Lot {
    anybody: Posterior,
    seed: u64,
    number: u32,
    first: u64,
    count: usize,
}

/// Scrambles of plans, audits and simulations come before.
const FIRST_SCRAMBLE: u32 = 1 << 20;

impl Drawn {
    /// So many heads.
    #[must_use]
    pub fn new(population: &Population, heads: u64, seed: u64) -> Self {
        Self { anybody: Posterior::new(population, &[], None), seed, heads, next: 0 }
    }
}

impl Source for Drawn {
    type Piece = Lot;
    type Fault = std::convert::Infallible;

    fn next(&mut self) -> Option<Result<Lot, Self::Fault>> {
        let first = self.next;
        let count = usize::try_from(CHUNK.min(self.heads - first)).ok().filter(|count| *count > 0)?;
        self.next += CHUNK.min(self.heads - first);
        // Scrambles come round again after 2³² chunks: 70 million million heads.
        #[expect(clippy::cast_possible_truncation, reason = "said above")]
        let number = (first / CHUNK) as u32;
        Some(Ok(Lot { anybody: self.anybody.clone(), seed: self.seed, number, first, count }))
    }

    fn heads(lot: Lot) -> Result<Chunk, Self::Fault> {
        let scramble = FIRST_SCRAMBLE.wrapping_add(lot.number);
        let heads = Particles::draw(&lot.anybody, lot.count, lot.seed, scramble);
        Ok(Chunk { first: lot.first, heads, drawn: [0; 4] })
    }

    fn both(one: Self::Fault, _: Self::Fault) -> Self::Fault {
        match one {}
    }

    fn progress(&self) -> Progress {
        let [done, of] = [self.next, self.heads].map(|heads| usize::try_from(heads).unwrap_or(usize::MAX));
        Progress { done, of }
    }
}
