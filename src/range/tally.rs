//! How many heads fit the same helmets: all that shares, subsets and changes need to know of them.

use super::room::Pads;
use crate::fit::Quote;
use itertools::Itertools;
use std::collections::HashMap;
use std::hash::{BuildHasherDefault, Hasher};

/// Heads by the columns of a shelf that fit them. Millions of heads are some ten thousand patterns.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Tally {
    /// Words of each of the two bitmaps of a pattern.
    words: usize,
    /// For each pattern what fits with the pads on offer and, behind it, with the standard pads.
    bits: Vec<u64>,
    /// For each pattern how many heads with an even and how many with an odd number have it.
    counts: Vec<[u64; 2]>,
}

/// The columns that fit the heads of a pattern.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pattern<'t> {
    /// With some pads on offer.
    pub on_offer: Columns<'t>,
    /// With the standard pads.
    pub standard: Columns<'t>,
}

/// A set of columns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Columns<'t>(&'t [u64]);

/// Heads that come to fit and heads that no longer do, counted one by one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Change {
    /// Heads that fit only after it.
    pub won: u64,
    /// Heads that fit only before.
    pub lost: u64,
    /// All heads.
    pub of: u64,
}

impl<'t> Columns<'t> {
    /// The columns whose bits are set.
    pub(super) fn of(words: &'t [u64]) -> Self {
        Self(words)
    }

    /// Whether a column is one of them.
    #[must_use]
    pub fn has(self, column: usize) -> bool {
        self.0.get(column / 64).is_some_and(|word| word >> (column % 64) & 1 == 1)
    }

    /// Whether one of these columns is one of them.
    #[must_use]
    pub fn has_any(self, columns: Columns<'_>) -> bool {
        self.0.iter().zip(columns.0).any(|(a, b)| a & b != 0)
    }

    /// Whether one of the columns of such a bitmap is one of them.
    pub(super) fn meets(self, bitmap: &[u64]) -> bool {
        self.has_any(Columns(bitmap))
    }

    /// Whether there is none.
    #[must_use]
    pub fn is_empty(self) -> bool {
        self.0.iter().all(|word| *word == 0)
    }

    /// How many they are.
    #[must_use]
    pub fn count(self) -> usize {
        self.0.iter().map(|word| word.count_ones() as usize).sum()
    }

    /// The only one; `None` where there is none or another.
    #[must_use]
    pub fn only(self) -> Option<usize> {
        if self.count() == 1 { self.iter().next() } else { None }
    }

    /// Them, ascending.
    pub fn iter(self) -> impl Iterator<Item = usize> + use<'t> {
        self.0.iter().enumerate().flat_map(|(at, word)| {
            let rest = |word: &u64| Some(word & (word - 1)).filter(|rest| *rest != 0);
            let words = std::iter::successors(Some(*word).filter(|word| *word != 0), rest);
            words.map(move |word| 64 * at + word.trailing_zeros() as usize)
        })
    }
}

impl<'t> Pattern<'t> {
    /// The columns that fit with these pads.
    #[must_use]
    pub fn with(self, pads: Pads) -> Columns<'t> {
        match pads {
            Pads::Standard => self.standard,
            Pads::OnOffer => self.on_offer,
        }
    }
}

/// A set of columns to ask for.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub struct ColumnSet(Vec<u64>);

impl ColumnSet {
    /// The columns as they are read.
    #[must_use]
    pub fn columns(&self) -> Columns<'_> {
        Columns(&self.0)
    }
}

impl FromIterator<usize> for ColumnSet {
    fn from_iter<I: IntoIterator<Item = usize>>(columns: I) -> Self {
        let mut words = Vec::new();
        for column in columns {
            words.resize(words.len().max(column / 64 + 1), 0);
            words[column / 64] |= 1 << (column % 64);
        }
        Self(words)
    }
}

impl Tally {
    /// How many heads there are.
    #[must_use]
    pub fn heads(&self) -> u64 {
        self.counts.iter().flatten().sum()
    }

    /// Every pattern with its heads, in an order that depends on the heads alone.
    pub fn patterns(&self) -> impl Iterator<Item = (Pattern<'_>, u64)> {
        self.halves().map(|(pattern, [even, odd])| (pattern, even + odd))
    }

    /// The same with the heads in two halves, by their number: one to choose on, one to judge on.
    pub fn halves(&self) -> impl Iterator<Item = (Pattern<'_>, [u64; 2])> {
        let bits = self.bits.chunks_exact((2 * self.words).max(1));
        bits.zip(&self.counts).map(|(bits, counts)| {
            let (on_offer, standard) = bits.split_at(self.words);
            (Pattern { on_offer: Columns(on_offer), standard: Columns(standard) }, *counts)
        })
    }

    /// How many heads are so.
    pub fn count(&self, is_so: impl Fn(Pattern<'_>) -> bool) -> u64 {
        self.patterns().filter(|(pattern, _)| is_so(*pattern)).map(|(_, heads)| heads).sum()
    }

    /// The share of heads that are so, with its sampling error.
    pub fn share(&self, is_so: impl Fn(Pattern<'_>) -> bool) -> Quote {
        share(self.count(is_so), self.heads())
    }

    /// What changes for heads that are so before and so after.
    pub fn change(&self, before: impl Fn(Pattern<'_>) -> bool, after: impl Fn(Pattern<'_>) -> bool) -> Change {
        let won = self.count(|pattern| !before(pattern) && after(pattern));
        let lost = self.count(|pattern| before(pattern) && !after(pattern));
        Change { won, lost, of: self.heads() }
    }
}

impl Change {
    /// The change of the share, with the sampling error of the difference on the same heads.
    #[must_use]
    pub fn quote(self) -> Quote {
        let [won, lost, of] = [self.won, self.lost, self.of].map(real);
        let value = (won - lost) / of.max(1.0);
        let square = (won + lost + 1.0) / (of + 2.0);
        Quote { value, error: 4.0 * ((square - value * value).max(0.0) / of.max(1.0)).sqrt() }
    }
}

/// The share that so many heads of so many are, with four standard errors of independently drawn heads. With none or all
/// of them the error is that of one head more or less (Laplace).
#[must_use]
pub fn share(count: u64, of: u64) -> Quote {
    let smoothed = real(count + 1) / real(of + 2);
    let error = 4.0 * (smoothed * (1.0 - smoothed) / real(of.max(1))).sqrt();
    Quote { value: real(count) / real(of.max(1)), error }
}

/// Counts of heads as numbers to compute with.
#[expect(clippy::cast_precision_loss, reason = "far below 2⁵²")]
pub(super) fn real(count: u64) -> f64 {
    count as f64
}

/// A tally in the making.
#[derive(Debug, Default)]
pub(super) struct Counting {
    known: HashMap<Box<[u64]>, [u64; 2], BuildHasherDefault<Mix>>,
}

impl Counting {
    /// Counts the heads of a chunk, each with an answer of `width` words.
    pub(super) fn add(&mut self, width: usize, first: u64, answers: &[u64]) {
        for (number, answer) in (first..).zip(answers.chunks_exact(width)) {
            let half = usize::from(number % 2 == 1);
            if let Some(counts) = self.known.get_mut(answer) {
                counts[half] += 1;
            } else {
                let mut counts = [0; 2];
                counts[half] = 1;
                self.known.insert(answer.into(), counts);
            }
        }
    }

    /// Adds the heads of another part.
    pub(super) fn merge(&mut self, other: Self) {
        for (answer, [even, odd]) in other.known {
            let counts = self.known.entry(answer).or_default();
            counts[0] += even;
            counts[1] += odd;
        }
    }

    /// Sorted, so that nothing depends on who counted what.
    pub(super) fn tally(self, words: usize) -> Tally {
        let sorted = self.known.into_iter().sorted_unstable().collect_vec();
        let mut tally = Tally { words, ..Tally::default() };
        for (answer, counts) in sorted {
            tally.bits.extend_from_slice(&answer);
            tally.counts.push(counts);
        }
        tally
    }
}

/// A quick hash of bitmaps: each word multiplied into the others (as in Fibonacci hashing). Nobody chooses the keys to
/// make them meet, and no order of the table reaches a result.
#[derive(Debug, Default)]
struct Mix(u64);

impl Hasher for Mix {
    fn finish(&self) -> u64 {
        self.0 ^ (self.0 >> 32)
    }

    fn write(&mut self, bytes: &[u8]) {
        for word in bytes.chunks(8) {
            let mut padded = [0; 8];
            padded[..word.len()].copy_from_slice(word);
            self.write_u64(u64::from_le_bytes(padded));
        }
    }

    fn write_u64(&mut self, word: u64) {
        self.0 = (self.0.rotate_left(23) ^ word).wrapping_mul(0x9e37_79b9_7f4a_7c15);
    }

    fn write_usize(&mut self, length: usize) {
        self.write_u64(length as u64);
    }
}
