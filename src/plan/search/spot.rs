//! A node of the search with what is known of it so far.

use super::values::{Sums, Values};
use super::{Bounds, Node};
use crate::plan::belief::{Belief, Split};
use crate::plan::problem::{Fold, MOST_REASONS, Problem, Reports};
use itertools::Itertools;

/// Minutes that are no difference: sums in another order differ by less.
const TIE: f64 = 1e-11;

/// A node, the tries that were looked at from it, and bounds.
pub(super) struct Spot {
    pub(super) node: Node,
    /// Candidates that can be tried, the most promising first.
    pub(super) order: Vec<usize>,
    /// How many of them may be looked at.
    pub(super) breadth: usize,
    /// What was looked at, by place in the order.
    pub(super) trials: Vec<Option<Trial>>,
    pub(super) bounds: Bounds,
    /// Going without at once.
    stop: f64,
    /// What every plan costs that the search may make: it shares branches among reasons and leaves candidates out.
    /// `bounds.lower` holds for the plans that do neither.
    within: f64,
}

/// A candidate tried at a node.
pub(super) struct Trial {
    pub(super) branches: Vec<Branch>,
    pub(super) split: Split,
    /// What each candidate costs at least after the reports.
    pub(super) sums: Sums,
    lower: f64,
    within: f64,
    upper: f64,
}

/// What may be reported after a try, with bounds of what follows.
pub(super) struct Branch {
    pub(super) reports: Reports,
    /// The spot that it leads to, once it was looked at.
    pub(super) spot: Option<usize>,
    lower: f64,
    within: f64,
    upper: f64,
}

impl Spot {
    pub(super) fn new(problem: &Problem, node: Node, mut order: Vec<usize>) -> Self {
        let stop = problem.terms.go_without * node.belief.mass;
        let mut bounds = Bounds { lower: stop, upper: stop, choice: None };
        if node.left.tries <= 1 {
            bounds = Bounds::at_the_end(problem, &node, order.first().copied());
            order.clear();
        }
        let trials = order.iter().map(|_| None).collect();
        let mut spot = Self { node, order, breadth: 0, trials, bounds, stop, within: bounds.upper };
        spot.settle();
        spot
    }

    /// Whether a better plan may be found from here.
    pub(super) fn is_open(&self) -> bool {
        self.within < self.bounds.upper
    }

    /// The place of the try whose bound is lowest, among those that may be looked at; none where nothing is open.
    pub(super) fn most_promising(&self) -> Option<usize> {
        if !self.is_open() {
            return None;
        }
        let known = |place: &usize| self.trials[*place].as_ref().map_or(self.quick(*place), |trial| trial.within);
        (0..self.breadth.min(self.order.len())).min_by(|a, b| known(a).total_cmp(&known(b)))
    }

    /// Lets more of the candidates be looked at.
    pub(super) fn widen(&mut self, breadth: usize) {
        if breadth > self.breadth {
            self.breadth = breadth;
            self.settle();
        }
    }

    /// Takes in what a try tells.
    pub(super) fn learn(&mut self, place: usize, mut trial: Trial) {
        if self.ends_soon() {
            trial.forget();
        }
        self.trials[place] = Some(trial);
        self.settle();
    }

    /// Draws the bounds together from those of the tries.
    fn settle(&mut self) {
        if self.order.is_empty() {
            return;
        }
        let mut bounds = Bounds { lower: self.stop, upper: self.stop, choice: None };
        self.within = self.stop;
        for (place, trial) in self.trials.iter().enumerate() {
            let quick = self.quick(place);
            bounds.lower = bounds.lower.min(trial.as_ref().map_or(quick, |trial| trial.lower));
            if place < self.breadth {
                self.within = self.within.min(trial.as_ref().map_or(quick, |trial| trial.within));
            }
            if let Some(trial) = trial.as_ref().filter(|trial| trial.upper < bounds.upper) {
                bounds.upper = trial.upper;
                bounds.choice = Some(self.order[place]);
            }
        }
        let is_open = self.within < bounds.upper - TIE * self.node.belief.mass;
        bounds.lower = bounds.lower.min(bounds.upper);
        self.bounds = bounds;
        if !is_open && self.breadth >= self.order.len() {
            self.close();
        } else if !is_open {
            self.within = bounds.upper;
        }
    }

    /// Nothing is left to look at: only the bounds are kept.
    fn close(&mut self) {
        self.within = self.bounds.upper;
        self.order = Vec::new();
        self.trials = Vec::new();
        self.node.belief = Belief::default();
    }

    /// Whether what is looked at costs exactly what is found.
    pub(super) fn ends_soon(&self) -> bool {
        self.node.left.tries == 2 && self.node.left.minutes.is_none()
    }

    fn quick(&self, place: usize) -> f64 {
        self.node.quick[self.order[place]]
    }
}

impl Trial {
    /// A try with what is known of it at first: what follows costs at least what the sums say, and at most one more
    /// try. With one more try to come and no clock to mind, that is the same.
    pub(super) fn new(problem: &Problem, values: &Values, node: &Node, split: Split, fold: Fold) -> Self {
        let tries = node.left.tries - 1;
        let sums = values.after(&split, tries);
        let is_known = tries == 1 && node.left.minutes.is_none();
        // Several reports lead to the same candidate: its costs are added up once.
        let mut one_more: Vec<Option<[f64; MOST_REASONS + 1]>> = vec![None; problem.candidates()];
        let branch = |(reports, probability): (Reports, f64)| {
            let stop = problem.terms.go_without * probability;
            let best = sums.least(problem, reports).filter(|(cost, _)| *cost < stop);
            let within = best.map_or(stop, |(cost, _)| cost);
            // A finer plan hears every one of these reasons.
            let apart = |number| {
                let one = Reports::one(number);
                let stop = problem.terms.go_without * split.probability(problem, one);
                sums.least(problem, one).map_or(stop, |(cost, _)| cost.min(stop))
            };
            let lower = if reports.single().is_some() { within } else { reports.numbers().map(apart).sum() };
            let upper = match best {
                _ if is_known => within,
                Some((_, candidate)) if node.left.minutes.is_none() => {
                    let by_reason = one_more[candidate].get_or_insert_with(|| values.one_more(&split, candidate));
                    problem.mixed(by_reason, reports).clamp(within, stop)
                }
                _ => stop,
            };
            Branch { reports, spot: None, lower, within, upper }
        };
        let branches = split.branches(problem, fold).into_iter().map(branch).collect_vec();
        let mut trial = Self { branches, split, sums, lower: 0.0, within: 0.0, upper: 0.0 };
        trial.add_up();
        trial
    }

    /// The branch whose bounds are furthest apart.
    pub(super) fn most_open(&self) -> Option<usize> {
        let open = |branch: &Branch| branch.upper - branch.within;
        self.branches.iter().position_max_by(|a, b| open(a).total_cmp(&open(b)))
    }

    /// Takes over what the spots know by now.
    pub(super) fn refresh(&mut self, spots: &[Spot]) {
        for branch in &mut self.branches {
            let Some(spot) = branch.spot.map(|spot| &spots[spot]) else { continue };
            branch.upper = spot.bounds.upper;
            branch.within = branch.within.max(spot.within).min(branch.upper);
            // Folded reasons share one next try, which a finer plan need not: only their own bounds hold for it.
            if branch.reports.single().is_some() {
                branch.lower = branch.lower.max(spot.bounds.lower).min(branch.upper);
            }
        }
        self.add_up();
    }

    /// Keeps the bounds alone.
    fn forget(&mut self) {
        self.branches = Vec::new();
        self.split.forget();
        self.sums = Sums::default();
    }

    fn add_up(&mut self) {
        let sum = |of: fn(&Branch) -> f64| self.split.minutes + self.branches.iter().map(of).sum::<f64>();
        (self.lower, self.within, self.upper) =
            (sum(|branch| branch.lower), sum(|branch| branch.within), sum(|branch| branch.upper));
    }
}
