//! The exact search: branch and bound, with a bound that shares every thing's weight out among its sets.
//!
//! Let λ be between 0 and the weight of a thing. However r sets are chosen, they cover at most Σ (weight − λ) and the r
//! largest of the sums of λ over the things of a set: whoever covers a thing pays its λ once at least, and the rest of its
//! weight is given for nothing. With λ = weight this is the sum of the r best gains. The λ that make it smallest are looked
//! for by subgradients (Held & Karp 1971; for maximal covering Galvão & ReVelle 1996) and come near to the linear program.
//! All of it is counted in whole numbers, so the bound is one whatever was rounded.

use super::cover::{Best, Cover};
use itertools::Itertools;
use std::cmp::Reverse;

/// Parts of a weight that λ is counted in.
const PARTS: i64 = 1 << 10;

/// Rounds of making the bound smaller at the beginning, and at each branch.
const FIRST_ROUNDS: usize = 300;
const ROUNDS: usize = 5;

/// The search for one number of sets after the other: the λ of one are a good beginning for the next.
pub(super) struct Search<'c> {
    cover: &'c Cover,
    always: &'c [usize],
    root: Node,
    best: Best,
    /// What all sets cover.
    all: u64,
    /// The largest bound of what wasn't looked into.
    open: u64,
    steps: u64,
}

/// Some sets are in, some are out, the others are free.
#[derive(Debug, Clone)]
struct Node {
    chosen: Vec<usize>,
    is_free: Vec<bool>,
    /// The weight that is covered.
    covers: u64,
    /// Things that aren't, with their λ.
    things: Vec<(usize, i64)>,
}

/// What a round of the bound found.
struct Round {
    /// λ of all things of a set, added up.
    sums: Vec<i64>,
    /// The sets with the largest sums.
    first: Vec<usize>,
    /// The largest sum of the others.
    next: Option<i64>,
    /// No choice covers more, in parts of a weight.
    bound: i64,
}

impl<'c> Search<'c> {
    pub(super) fn new(cover: &'c Cover, always: &'c [usize]) -> Self {
        let things = cover.things().map(|thing| (thing, whole(cover.weights[thing]))).collect();
        let mut root = Node { chosen: Vec::new(), is_free: vec![true; cover.count], covers: 0, things };
        always.iter().for_each(|set| root.put(cover, *set));
        let best = Best { sets: Vec::new(), covers: 0, at_most: 0 };
        Self { cover, always, root, best, all: cover.weights.iter().sum(), open: 0, steps: 0 }
    }

    /// The best with as many sets as the start has, which contains `always`.
    pub(super) fn best(&mut self, start: Vec<usize>, steps: u64) -> Best {
        let number = start.len();
        let covers = self.cover.covered_by(&start);
        self.best = Best { sets: start, covers, at_most: covers };
        (self.open, self.steps) = (0, steps);
        let mut root = self.root.clone();
        self.tightened(&mut root, number, FIRST_ROUNDS);
        self.root.things.clone_from(&root.things);
        self.explore(root, number);
        let sets = self.cover.exchanged(std::mem::take(&mut self.best.sets), self.always);
        let covers = self.cover.covered_by(&sets);
        Best { sets, covers, at_most: self.open.max(covers) }
    }

    /// Looks into everything below a node that may cover more than the best so far.
    fn explore(&mut self, mut node: Node, number: usize) {
        loop {
            let Some(round) = self.tightened(&mut node, number, ROUNDS) else { return };
            if self.steps == 0 {
                self.open = self.open.max(self.most(round.bound));
                return;
            }
            if !self.fix(&mut node, &round) {
                let Some(branch) = round.first.first() else { return };
                let mut with = node.clone();
                with.put(self.cover, *branch);
                self.explore(with, number);
                node.is_free[*branch] = false;
            }
        }
    }

    /// Makes the bound of a node smaller, round by round, and leaves the best λ in it; `None` where nothing better than the
    /// best so far can lie below. What the rounds choose is a candidate for the best.
    fn tightened(&mut self, node: &mut Node, number: usize, rounds: usize) -> Option<Round> {
        match number - node.chosen.len() {
            // What a round chose was looked at then.
            0 => return None,
            // One gain is what it is.
            1 => node.things.iter_mut().for_each(|(thing, share)| *share = whole(self.cover.weights[*thing])),
            _ => {}
        }
        let mut smallest: Option<Round> = None;
        let mut things = node.things.clone();
        let mut pace = 1.0;
        for _ in 0..rounds {
            let round = self.round(node, &things, number)?;
            let counts = self.counts(node, &things, &round.first);
            if self.is_beaten(round.bound) {
                return None;
            }
            let gap = round.bound - whole(self.best.covers);
            if smallest.as_ref().is_none_or(|smallest| round.bound < smallest.bound) {
                smallest = Some(round);
                node.things.clone_from(&things);
            } else {
                pace *= 0.9;
            }
            if self.steps == 0 || !self.step(&mut things, &counts, pace, gap) {
                break;
            }
        }
        smallest
    }

    /// The bound of a node with these λ; `None` where too few sets are free.
    fn round(&mut self, node: &Node, things: &[(usize, i64)], number: usize) -> Option<Round> {
        let mut sums = vec![0; self.cover.count];
        let mut bound = whole(node.covers);
        let mut looked_at = 0;
        for (thing, share) in things {
            let sets = self.cover.sets_of(*thing);
            sets.iter().for_each(|set| sums[*set] += share);
            bound += whole(self.cover.weights[*thing]) - share;
            looked_at += sets.len() as u64;
        }
        self.steps = self.steps.saturating_sub(looked_at);
        let free = (0..self.cover.count).filter(|set| node.is_free[*set]);
        let mut ranked = free.sorted_by_key(|set| (Reverse(sums[*set]), *set));
        let wanted = number - node.chosen.len();
        let first = ranked.by_ref().take(wanted).collect_vec();
        if first.len() < wanted {
            return None;
        }
        bound += first.iter().map(|set| sums[*set]).sum::<i64>();
        Some(Round { next: ranked.next().map(|set| sums[set]), sums, first, bound })
    }

    /// How many of the sets each thing lies in. They are the best so far where they cover more.
    fn counts(&mut self, node: &Node, things: &[(usize, i64)], first: &[usize]) -> Vec<u32> {
        let is_first = self.cover.marked(first);
        let mut covers = node.covers;
        let mut counts = Vec::with_capacity(things.len());
        for (thing, _) in things {
            let count = self.cover.sets_of(*thing).iter().map(|set| u32::from(is_first[*set])).sum();
            covers += if count > 0 { self.cover.weights[*thing] } else { 0 };
            counts.push(count);
        }
        if covers > self.best.covers {
            let sets = node.chosen.iter().chain(first).copied().sorted_unstable().collect();
            self.best = Best { sets, covers, at_most: covers };
        }
        counts
    }

    /// A step along the subgradient: a thing that nobody covers shares out more, one that several cover shares out less. Its
    /// length is Polyak's, for the bound to come down to the best so far. Whether anything can move.
    fn step(&self, things: &mut [(usize, i64)], counts: &[u32], pace: f64, gap: i64) -> bool {
        let moves = |(thing, share): (usize, i64), count: u32| {
            let weight = self.cover.weights[thing];
            let is_stuck = count == 1 || (count == 0 && share >= whole(weight)) || (count > 1 && share <= 0);
            if is_stuck { 0.0 } else { 1.0 - f64::from(count) }
        };
        let norm: f64 = things
            .iter()
            .zip(counts)
            .map(|(thing, count)| real(whole(self.cover.weights[thing.0])) * moves(*thing, *count).powi(2))
            .sum();
        if norm <= 0.0 {
            return false;
        }
        let length = pace * real(gap) / norm;
        for (thing, count) in things.iter_mut().zip(counts) {
            let weight = whole(self.cover.weights[thing.0]);
            #[expect(clippy::cast_possible_truncation, reason = "what is too long ends at the weight")]
            let change = (length * real(weight) * moves(*thing, *count)).round() as i64;
            thing.1 = thing.1.saturating_add(change).clamp(0, weight);
        }
        true
    }

    /// Puts in what must be in for anything better than the best so far, and takes out what can't be; whether there was any.
    fn fix(&self, node: &mut Node, round: &Round) -> bool {
        let last = round.first.last().map_or(0, |set| round.sums[*set]);
        let is_first = self.cover.marked(&round.first);
        let before = node.is_free.clone();
        for set in (0..self.cover.count).filter(|set| before[*set]) {
            let sum = round.sums[set];
            if is_first[set] {
                // Without a next one all that are free are needed.
                if round.next.is_none_or(|next| self.is_beaten(round.bound - sum + next)) {
                    node.put(self.cover, set);
                }
            } else if self.is_beaten(round.bound - last + sum) {
                node.is_free[set] = false;
            }
        }
        node.is_free != before
    }

    /// Whether a bound leaves nothing better than the best so far.
    fn is_beaten(&self, bound: i64) -> bool {
        self.most(bound) <= self.best.covers
    }

    /// The whole weight below a bound.
    fn most(&self, bound: i64) -> u64 {
        u64::try_from(bound / PARTS).unwrap_or(0).min(self.all)
    }
}

impl Node {
    /// Puts a set in.
    fn put(&mut self, cover: &Cover, set: usize) {
        self.chosen.push(set);
        self.is_free[set] = false;
        self.things.retain(|(thing, _)| {
            let is_covered = cover.sets_of(*thing).contains(&set);
            self.covers += if is_covered { cover.weights[*thing] } else { 0 };
            !is_covered
        });
    }
}

/// A weight in parts.
fn whole(weight: u64) -> i64 {
    i64::try_from(weight).unwrap_or(i64::MAX).saturating_mul(PARTS)
}

/// A number to compute a step with, which may be rounded.
#[expect(clippy::cast_precision_loss, reason = "any step is a step")]
fn real(whole: i64) -> f64 {
    whole as f64
}
