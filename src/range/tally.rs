//! How many heads fit the same helmets: all that shares, subsets and changes need to know of them.

use super::room::Pads;
use crate::fit::Quote;
use itertools::Itertools;

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
    /// The pattern that an index answers: two bitmaps of so many words, one behind the other.
    pub(super) fn of(bits: &'t [u64], words: usize) -> Self {
        let (on_offer, standard) = bits.split_at(words);
        Self { on_offer: Columns(on_offer), standard: Columns(standard) }
    }

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
        bits.zip(&self.counts).map(|(bits, counts)| (Pattern::of(bits, self.words), *counts))
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

/// A tally in the making: a hash table whose keys stand one behind the other, because millions of heads look for theirs.
/// Nobody chooses the keys to make them meet, and no order of the table reaches a result.
#[derive(Debug, Default)]
pub(super) struct Counting {
    /// Words of an answer.
    width: usize,
    /// The different answers, in the order in which they came.
    answers: Vec<u64>,
    /// For each of them how many heads with an even and how many with an odd number have it.
    counts: Vec<[u64; 2]>,
    /// By hash one more than the place of an answer, 0 where there is none. At most half of the slots are taken.
    slots: Vec<u32>,
}

impl Counting {
    /// Counts the heads of a chunk, each with an answer of `width` words, the same for every chunk.
    pub(super) fn add(&mut self, width: usize, first: u64, answers: &[u64]) {
        self.width = width;
        for (number, answer) in (first..).zip(answers.chunks_exact(width)) {
            let place = self.place(answer);
            self.counts[place][usize::from(number % 2 == 1)] += 1;
        }
    }

    /// Adds the heads of another part.
    pub(super) fn merge(&mut self, other: &Self) {
        self.width = self.width.max(other.width);
        for (answer, [even, odd]) in other.answers.chunks_exact(other.width.max(1)).zip(&other.counts) {
            let place = self.place(answer);
            self.counts[place][0] += even;
            self.counts[place][1] += odd;
        }
    }

    /// Sorted, so that nothing depends on who counted what.
    pub(super) fn tally(&self, words: usize) -> Tally {
        let pairs = self.answers.chunks_exact(self.width.max(1)).zip(&self.counts);
        let mut tally = Tally { words, ..Tally::default() };
        for (answer, counts) in pairs.sorted_unstable() {
            tally.bits.extend_from_slice(answer);
            tally.counts.push(*counts);
        }
        tally
    }

    /// Where an answer stands; behind the others if it is a new one.
    fn place(&mut self, answer: &[u64]) -> usize {
        if self.slots.len() < 2 * (self.counts.len() + 1) {
            self.widen();
        }
        let mut slot = self.slot(answer);
        while let Some(place) = (self.slots[slot] as usize).checked_sub(1) {
            if self.answers[place * self.width..].iter().zip(answer).all(|(one, other)| one == other) {
                return place;
            }
            slot = (slot + 1) & (self.slots.len() - 1);
        }
        self.answers.extend_from_slice(answer);
        self.counts.push([0; 2]);
        self.slots[slot] = u32::try_from(self.counts.len()).unwrap_or(u32::MAX);
        self.counts.len() - 1
    }

    fn widen(&mut self) {
        self.slots = vec![0; (2 * self.slots.len()).max(1 << 12)];
        for (place, answer) in (1..).zip(self.answers.chunks_exact(self.width)) {
            let mut slot = self.slot(answer);
            while self.slots[slot] != 0 {
                slot = (slot + 1) & (self.slots.len() - 1);
            }
            self.slots[slot] = place;
        }
    }

    /// Where to begin to look: each word multiplied into those before (Fibonacci hashing). There are 2ⁿ slots.
    fn slot(&self, answer: &[u64]) -> usize {
        let mix = |hash: u64, word: &u64| (hash.rotate_left(23) ^ word).wrapping_mul(0x9e37_79b9_7f4a_7c15);
        let hash = answer.iter().fold(0, mix);
        #[expect(clippy::cast_possible_truncation, reason = "the high bits, folded down, are those that are needed")]
        let folded = (hash ^ (hash >> 32)) as usize;
        folded & (self.slots.len() - 1)
    }
}
