//! Weighted things that lie in some of many sets: which few sets cover most weight?
//!
//! This is weighted maximum coverage. Adding sets one by one, each time the one that adds most, is never worse than
//! 1 − 1/e of the best (Nemhauser, Wolsey & Fisher 1978); here it is only the beginning of an exact search.

use super::search::Search;
use itertools::Itertools;
use std::collections::BTreeMap;

/// Things by the sets that they lie in. What lies in the same sets is one thing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cover {
    /// How many sets there are.
    pub(super) count: usize,
    /// Weight of each thing.
    pub(super) weights: Vec<u64>,
    /// Where a thing's sets begin among `sets`; one more than things.
    starts: Vec<usize>,
    /// The sets of all things, one after the other.
    sets: Vec<usize>,
}

/// The best that was found with some number of sets.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Best {
    /// The sets, ascending.
    pub sets: Vec<usize>,
    /// The weight that they cover.
    pub covers: u64,
    /// No other sets of this number cover more than this. Where it is `covers`, these are the best.
    pub at_most: u64,
}

impl Best {
    /// Whether no other sets of this number cover more.
    #[must_use]
    pub fn is_exact(&self) -> bool {
        self.covers == self.at_most
    }
}

impl Cover {
    /// So many sets, and things with the sets that they lie in and their weight (together below 2⁵⁰). A set outside of
    /// `count` is a mistake of the program, and panics.
    #[must_use]
    pub fn new(count: usize, things: impl IntoIterator<Item = (Vec<usize>, u64)>) -> Self {
        let mut merged = BTreeMap::<Vec<usize>, u64>::new();
        for (sets, weight) in things {
            assert!(sets.iter().all(|set| *set < count), "a thing lies in known sets");
            let sets = sets.into_iter().sorted_unstable().dedup().collect_vec();
            *merged.entry(sets).or_default() += weight;
        }
        let mut cover = Self { count, weights: Vec::new(), starts: vec![0], sets: Vec::new() };
        for (sets, weight) in merged {
            if !sets.is_empty() && weight > 0 {
                cover.weights.push(weight);
                cover.sets.extend(sets);
                cover.starts.push(cover.sets.len());
            }
        }
        cover
    }

    /// The weight that some sets cover.
    #[must_use]
    pub fn covered_by(&self, chosen: &[usize]) -> u64 {
        let is_chosen = self.marked(chosen);
        let is_covered = |thing: &usize| self.sets_of(*thing).iter().any(|set| is_chosen[*set]);
        self.things().filter(is_covered).map(|thing| self.weights[thing]).sum()
    }

    /// For every number of sets from `always` up to all, the best that contain `always` (different sets, ascending), as far
    /// as so many steps for each number lead. A step looks at one set of one thing.
    ///
    /// Within them no set can be exchanged for another one without covering less, or as much with a set of a higher number.
    #[must_use]
    pub fn best(&self, always: &[usize], steps: u64) -> Vec<Best> {
        let mut search = Search::new(self, always);
        let mut all = Vec::<Best>::new();
        for greedy in self.greedy(always) {
            let start = match all.last() {
                None => greedy,
                Some(before) => {
                    let nested = self.exchanged(self.with_most(&before.sets), always);
                    let greedy = self.exchanged(greedy, always);
                    // The first of equals.
                    if self.covered_by(&greedy) > self.covered_by(&nested) { greedy } else { nested }
                }
            };
            all.push(search.best(start, steps));
        }
        all
    }

    /// The sets one by one, beginning with `always`, each time with the one that adds most weight; the first of equals.
    #[must_use]
    pub fn greedy(&self, always: &[usize]) -> Vec<Vec<usize>> {
        let next = |chosen: &Vec<usize>| (chosen.len() < self.count).then(|| self.with_most(chosen));
        std::iter::successors(Some(always.to_vec()), next).collect()
    }

    pub(super) fn things(&self) -> std::ops::Range<usize> {
        0..self.weights.len()
    }

    pub(super) fn sets_of(&self, thing: usize) -> &[usize] {
        &self.sets[self.starts[thing]..self.starts[thing + 1]]
    }

    /// With the set that adds most weight; the first of equals.
    fn with_most(&self, chosen: &[usize]) -> Vec<usize> {
        let is_chosen = self.marked(chosen);
        let mut gains = vec![0; self.count];
        for thing in self.things() {
            let sets = self.sets_of(thing);
            if !sets.iter().any(|set| is_chosen[*set]) {
                sets.iter().for_each(|set| gains[*set] += self.weights[thing]);
            }
        }
        let others = (0..self.count).filter(|set| !is_chosen[*set]);
        let most = others.max_by_key(|set| (gains[*set], std::cmp::Reverse(*set)));
        chosen.iter().copied().chain(most).sorted_unstable().collect()
    }

    /// With sets exchanged, one for one, as long as that covers more, or as much with a lower number. Those of `always` stay.
    pub(super) fn exchanged(&self, mut chosen: Vec<usize>, always: &[usize]) -> Vec<usize> {
        while let Some((out, put)) = self.exchange(&chosen, always) {
            chosen.retain(|set| *set != out);
            chosen.push(put);
            chosen.sort_unstable();
        }
        chosen
    }

    /// The best exchange that there is: what goes out, and what comes in.
    fn exchange(&self, chosen: &[usize], always: &[usize]) -> Option<(usize, usize)> {
        let is_chosen = self.marked(chosen);
        // What is lost without a set, what another one adds, and what that one saves of the loss.
        let mut lost = vec![0; self.count];
        let mut added = vec![0; self.count];
        let mut saved = vec![0; self.count * self.count];
        for thing in self.things() {
            let (sets, weight) = (self.sets_of(thing), self.weights[thing]);
            let mut within = sets.iter().filter(|set| is_chosen[**set]);
            match (within.next(), within.next()) {
                (None, _) => sets.iter().for_each(|set| added[*set] += weight),
                (Some(only), None) => {
                    lost[*only] += weight;
                    let others = sets.iter().filter(|set| !is_chosen[**set]);
                    others.for_each(|other| saved[only * self.count + other] += weight);
                }
                _ => {}
            }
        }
        let free = chosen.iter().copied().filter(|set| !always.contains(set));
        let others = (0..self.count).filter(|set| !is_chosen[*set]);
        let gain = |(out, put): (usize, usize)| {
            let won: u64 = added[put] + saved[out * self.count + put];
            // More first; of equals the one that comes in with the lowest number.
            (won >= lost[out] && (won > lost[out] || put < out)).then(|| (won - lost[out], (out, put)))
        };
        let better = free.cartesian_product(others).filter_map(gain);
        better
            .min_by_key(|(gain, (out, put))| (std::cmp::Reverse(*gain), *put, std::cmp::Reverse(*out)))
            .map(|(_, best)| best)
    }

    pub(super) fn marked(&self, chosen: &[usize]) -> Vec<bool> {
        let mut marked = vec![false; self.count];
        chosen.iter().for_each(|set| marked[*set] = true);
        marked
    }
}
