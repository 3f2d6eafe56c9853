//! The search for the best plan: best first, with bounds on both sides.
//!
//! Values are minutes times probability of getting there, so that they add up along a tree. The lower bound lets
//! every head that fails go straight to the cheapest candidate that fits it (it knows itself), after as many
//! honest tries as the search has looked ahead. Every candidate counts in it, also those that a node doesn't explore.
//!
//! The tree of nodes ("spots") is kept. Each round goes down from the root, at every spot by the try whose bound is
//! lowest, then by the report whose bounds are furthest apart, looks at one more try where it ends, and draws the
//! bounds together on the way back (AO*).

mod spot;
mod values;

use super::belief::{Belief, Split};
use super::problem::{Fold, Problem, Reports};
use itertools::Itertools;
use spot::{Spot, Trial};
use std::cmp::Ordering;
use std::collections::HashMap;
use values::{Sums, Values};

/// What a search knows about a belief.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Bounds {
    /// No plan from here costs less.
    pub(super) lower: f64,
    /// The plan that was found costs this.
    pub(super) upper: f64,
    /// Its first try; `None` to stop here.
    pub(super) choice: Option<usize>,
}

impl Bounds {
    /// Bounds of a node with one try left at most, where `best` is the most promising candidate: without a try to
    /// follow, the quick bounds are the costs themselves.
    fn at_the_end(problem: &Problem, node: &Node, best: Option<usize>) -> Self {
        let stop = problem.terms.go_without * node.belief.mass;
        match best.map(|candidate| (node.quick[candidate], candidate)).filter(|(cost, _)| *cost < stop) {
            Some((cost, candidate)) => Self { lower: cost, upper: cost, choice: Some(candidate) },
            None => Self { lower: stop, upper: stop, choice: None },
        }
    }
}

/// How much a search may do. Counted in steps of arithmetic, never in time: the same on every machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Effort {
    /// Tries that are looked at with every outcome before a rule of thumb takes over.
    pub look_ahead: usize,
    /// Candidates explored at a node; the others still count in the bound.
    pub breadth: usize,
    /// Steps of arithmetic after which the search settles for what it has.
    pub work: u64,
}

impl Effort {
    /// Look at everything: for small problems and for tests.
    pub const WHOLE: Self = Self { look_ahead: usize::MAX, breadth: usize::MAX, work: u64::MAX };
}

/// What was tried and heard on the way to a belief, in the order of the candidates: another order of the same
/// tries and reports leads to the same belief.
type Path = Vec<(usize, Reports)>;

/// What a belief is found again by: its path, and the minutes left (as bits).
type Key = (Path, u64);

/// What is left on a path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Left {
    pub(super) tries: usize,
    pub(super) minutes: Option<f64>,
}

/// What a search may spend on a node that is asked for: this part of what is left.
const PORTION: u64 = 8;

/// One search over one problem; it remembers what it has looked at.
pub(super) struct Search<'p> {
    problem: &'p Problem,
    effort: Effort,
    /// Whether every reason shares one branch.
    is_deaf: bool,
    values: Values,
    spots: Vec<Spot>,
    known: HashMap<Key, usize>,
    work: u64,
}

/// A belief with what each candidate costs there at least.
#[derive(Clone)]
pub(super) struct Node {
    pub(super) belief: Belief,
    pub(super) path: Path,
    pub(super) left: Left,
    quick: Vec<f64>,
}

impl Node {
    /// Which of two candidates is more promising.
    fn compare(&self, a: usize, b: usize) -> Ordering {
        self.quick[a].total_cmp(&self.quick[b]).then(a.cmp(&b))
    }

    fn key(&self) -> Key {
        (self.path.clone(), self.left.minutes.unwrap_or(0.0).to_bits())
    }
}

impl<'p> Search<'p> {
    pub(super) fn new(problem: &'p Problem, effort: Effort) -> Self {
        let values = Values::of(problem);
        Self { problem, effort, is_deaf: false, values, spots: Vec::new(), known: HashMap::new(), work: 0 }
    }

    /// The same search for plans that hear only that a try failed, not why. With one branch to each try, half of
    /// the work goes as far.
    pub(super) fn deaf(mut self) -> Self {
        self.is_deaf = true;
        self.spots.clear();
        self.known.clear();
        self.work = self.effort.work / 2;
        self
    }

    /// Where every plan begins.
    pub(super) fn root(&self) -> Node {
        let belief = Belief::whole(self.problem);
        let left = Left { tries: self.problem.terms.tries, minutes: self.problem.terms.minutes };
        let quick = self.values.on(&belief, left.tries);
        Node { belief, path: Vec::new(), left, quick }
    }

    /// Solves the whole problem, as far as the work goes. Returns the bounds and how far ahead it looked.
    pub(super) fn solve(&mut self) -> (Bounds, usize) {
        let root = self.root();
        let look_ahead = self.effort.look_ahead.min(root.left.tries);
        let at = self.spot(root);
        self.dig(at, look_ahead, f64::INFINITY, self.effort.work);
        (self.spots[at].bounds, look_ahead)
    }

    /// Bounds of a node, from at most so many tries with every outcome, and from there on the most promising ones
    /// alone. A plan that costs `cutoff` or more is of no use to the caller: the search may stop once the lower
    /// bound reaches it.
    pub(super) fn bounds(&mut self, node: &Node, look_ahead: usize, cutoff: f64) -> Bounds {
        if node.left.tries <= 1 {
            // Nothing to look at closer, and not worth remembering.
            return Bounds::at_the_end(self.problem, node, self.allowed(node).min_by(|a, b| node.compare(*a, *b)));
        }
        let at = self.known.get(&node.key()).copied().unwrap_or_else(|| self.spot(node.clone()));
        let until = self.work + self.effort.work.saturating_sub(self.work) / PORTION;
        self.dig(at, look_ahead, cutoff, until);
        self.glance(at);
        self.spots[at].bounds
    }

    /// The nodes after trying a candidate, by report.
    pub(super) fn children(&self, node: &Node, candidate: usize) -> (f64, Vec<(Reports, Node)>) {
        let split = match node.left.tries {
            1 => node.belief.tally(self.problem, candidate),
            _ => node.belief.split(self.problem, candidate),
        };
        let sums = self.values.after(&split, node.left.tries - 1);
        let branches = split.branches(self.problem, self.fold()).into_iter();
        let child = |(reports, _)| (reports, self.child(node, candidate, (&split, &sums), reports));
        (split.minutes, branches.map(child).collect())
    }

    /// Whether a candidate can be tried at a node: not tried yet, and the time left allows it.
    pub(super) fn allows(&self, node: &Node, candidate: usize) -> bool {
        let minutes = || node.belief.sum(&self.problem.minutes[candidate]);
        node.left.tries > 0
            && !node.path.iter().any(|(tried, _)| *tried == candidate)
            && node.left.minutes.is_none_or(|left| minutes() <= left * node.belief.mass + 1e-9)
    }

    /// Makes room for work on the plan that was found: a quarter of what the search itself may do.
    pub(super) fn rest(&mut self) {
        self.work = self.effort.work / 4 * 3;
    }

    /// The spot of a node, a new one if it is met for the first time.
    fn spot(&mut self, node: Node) -> usize {
        let key = node.key();
        if let Some(at) = self.known.get(&key) {
            return *at;
        }
        let order = self.allowed(&node).sorted_by(|a, b| node.compare(*a, *b)).collect();
        self.spots.push(Spot::new(self.problem, node, order));
        self.known.insert(key, self.spots.len() - 1);
        self.spots.len() - 1
    }

    /// Candidates that can be tried at a node.
    fn allowed(&self, node: &Node) -> impl Iterator<Item = usize> {
        let candidates = if node.belief.rows.is_empty() { 0 } else { self.problem.candidates() };
        (0..candidates).filter(|candidate| self.allows(node, *candidate))
    }

    /// Looks closer at a spot until nothing is left open there, or it is enough.
    fn dig(&mut self, at: usize, look_ahead: usize, cutoff: f64, until: u64) {
        let breadth = self.breadth(look_ahead);
        self.spots[at].widen(breadth);
        while self.spots[at].is_open() && self.spots[at].bounds.lower < cutoff && self.work < until {
            self.look(at, look_ahead);
        }
    }

    fn breadth(&self, look_ahead: usize) -> usize {
        if look_ahead == 0 { 1 } else { self.effort.breadth }
    }

    /// One round from a spot downwards.
    fn look(&mut self, at: usize, look_ahead: usize) {
        let breadth = self.breadth(look_ahead);
        self.spots[at].widen(breadth);
        let ends_soon = self.spots[at].ends_soon();
        while let Some(place) = self.spots[at].most_promising() {
            let trial = match self.spots[at].trials[place].take() {
                Some(trial) => self.look_behind(at, place, trial, look_ahead),
                None => self.first_look(at, place),
            };
            self.spots[at].learn(place, trial);
            // Near the end of a plan one look tells what a try costs: no reason to come back for the next.
            if !ends_soon {
                break;
            }
        }
    }

    fn first_look(&mut self, at: usize, place: usize) -> Trial {
        let (node, candidate) = (&self.spots[at].node, self.spots[at].order[place]);
        let split = node.belief.split(self.problem, candidate);
        let trial = Trial::new(self.problem, &self.values, node, split, self.fold());
        self.work += (node.belief.rows.len() + trial.split.fails() * self.problem.candidates()) as u64;
        trial
    }

    /// Looks closer at what follows a try.
    fn look_behind(&mut self, at: usize, place: usize, mut trial: Trial, look_ahead: usize) -> Trial {
        self.work += 1;
        if let Some(branch) = trial.most_open() {
            let spot = self.follow(at, place, &mut trial, branch);
            self.look(spot, look_ahead.saturating_sub(1));
        }
        trial.refresh(&self.spots);
        trial
    }

    /// The spot behind a branch of a try.
    fn follow(&mut self, at: usize, place: usize, trial: &mut Trial, branch: usize) -> usize {
        if let Some(spot) = trial.branches[branch].spot {
            return spot;
        }
        let (node, candidate) = (&self.spots[at].node, self.spots[at].order[place]);
        let child = self.child(node, candidate, (&trial.split, &trial.sums), trial.branches[branch].reports);
        let spot = self.spot(child);
        trial.branches[branch].spot = Some(spot);
        spot
    }

    /// Where the work is done and nobody has looked yet: the rule of thumb, which tries what would be best if every
    /// later try were the right one.
    fn glance(&mut self, at: usize) {
        let is_new = self.spots[at].is_open() && self.spots[at].trials.iter().all(Option::is_none);
        if is_new {
            let trial = self.first_look(at, 0);
            self.spots[at].learn(0, trial);
        }
    }

    fn fold(&self) -> Fold {
        if self.is_deaf { Fold::ALL } else { self.problem.terms.fold }
    }

    /// The node after trying a candidate (which splits the belief so, and what follows costs at least so much) and
    /// hearing one of these reports.
    fn child(&self, node: &Node, candidate: usize, (split, sums): (&Split, &Sums), reports: Reports) -> Node {
        let left = Left {
            tries: node.left.tries - 1,
            minutes: node.left.minutes.map(|minutes| minutes - split.minutes / node.belief.mass),
        };
        if left.tries == 0 {
            // Nobody asks whose heads are left, or how they came here.
            let belief = Belief { mass: split.probability(self.problem, reports), ..Belief::default() };
            return Node { belief, path: Vec::new(), left, quick: Vec::new() };
        }
        let belief = split.after(self.problem, reports);
        let mut path = Vec::with_capacity(node.path.len() + 1);
        let step = (candidate, reports);
        let place = node.path.partition_point(|earlier| *earlier < step);
        path.extend_from_slice(&node.path[..place]);
        path.push(step);
        path.extend_from_slice(&node.path[place..]);
        Node { belief, path, left, quick: sums.heard(self.problem, reports) }
    }
}
