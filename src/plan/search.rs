//! The search for the best plan: depth first, with bounds on both sides.
//!
//! Values are minutes times probability of getting there, so that they add up along a tree. The lower bound lets
//! every head that fails go straight to the cheapest candidate that fits it (it knows itself), after as many
//! honest tries as the search looks ahead. Every candidate counts in it, also those that a node doesn't explore.

use super::belief::{Belief, Split};
use super::problem::{Fold, Problem, Reports};
use itertools::Itertools;
use std::collections::HashMap;
use std::rc::Rc;

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

/// How much a search may do. Counted in steps of arithmetic, never in time: the same on every machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Effort {
    /// Tries that are looked at with every outcome before a rule of thumb takes over.
    pub look_ahead: usize,
    /// Candidates explored at a node; the others still count in the bound.
    pub breadth: usize,
    /// Multiplications after which the search settles for what it has.
    pub work: u64,
}

impl Effort {
    /// Look at everything: for small problems and for tests.
    pub const WHOLE: Self = Self { look_ahead: usize::MAX, breadth: usize::MAX, work: u64::MAX };
}

/// What was tried and heard on the way to a belief, in the order of the candidates: another order of the same
/// tries and reports leads to the same belief.
type Path = Vec<(usize, Reports)>;

/// What is left on a path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Left {
    pub(super) tries: usize,
    pub(super) minutes: Option<f64>,
}

/// One search over one problem; it remembers what it has solved.
pub(super) struct Search<'p> {
    problem: &'p Problem,
    effort: Effort,
    /// Whether every reason shares one branch.
    is_deaf: bool,
    /// Row by row, for each candidate: minutes, and where it fails what the row costs at least from then on.
    value: Vec<f64>,
    /// Tries at the root, by candidate: every pass begins with them.
    at_root: HashMap<usize, Rc<Tried>>,
    /// Bounds, and the cutoff up to which they were looked for.
    solved: HashMap<(Path, usize, u64), (Bounds, f64)>,
    work: u64,
}

/// A belief with what each candidate costs there at least.
pub(super) struct Node {
    pub(super) belief: Belief,
    pub(super) path: Path,
    pub(super) left: Left,
    quick: Vec<f64>,
}

/// A try: how it splits a belief, and by true reason and candidate Σ weight × value over the rows that fail so.
struct Tried {
    split: Split,
    sums: Vec<Vec<f64>>,
    /// The sums over all reasons.
    total: Vec<f64>,
}

impl<'p> Search<'p> {
    pub(super) fn new(problem: &'p Problem, effort: Effort) -> Self {
        let least = least_cost(problem);
        let width = problem.candidates();
        let mut value = vec![0.0; least.len() * width];
        for (candidate, (outcome, minutes)) in problem.outcome.iter().zip(&problem.minutes).enumerate() {
            let column = value.iter_mut().skip(candidate).step_by(width);
            for (row, value) in column.enumerate() {
                *value = minutes[row] + if outcome[row] == 0 { 0.0 } else { least[row] };
            }
        }
        Self { problem, effort, is_deaf: false, value, at_root: HashMap::new(), solved: HashMap::new(), work: 0 }
    }

    /// The same search for plans that hear only that a try failed, not why. With one branch to each try, half of
    /// the work goes as far.
    pub(super) fn deaf(mut self) -> Self {
        self.is_deaf = true;
        self.solved.clear();
        self.work = self.effort.work / 2;
        self
    }

    /// Where every plan begins.
    pub(super) fn root(&self) -> Node {
        let belief = Belief::whole(self.problem);
        let mut quick = vec![0.0; self.problem.candidates()];
        // Without candidates there are no columns to cut into rows.
        for (values, weight) in self.value.chunks_exact(quick.len().max(1)).zip(&belief.weight) {
            quick.iter_mut().zip(values).for_each(|(sum, value)| *sum += weight * value);
        }
        let left = Left { tries: self.problem.terms.tries, minutes: self.problem.terms.minutes };
        Node { belief, path: Vec::new(), left, quick }
    }

    /// Solves the whole problem, looking further ahead each time until nothing is left open or the work is done.
    /// Returns the bounds and the look-ahead that reached them.
    pub(super) fn solve(&mut self) -> (Bounds, usize) {
        let root = self.root();
        let deepest = self.effort.look_ahead.min(root.left.tries);
        let mut best = self.bounds(&root, 0, f64::INFINITY);
        let mut reached = 0;
        for look_ahead in 1..=deepest {
            let found = self.bounds(&root, look_ahead, f64::INFINITY);
            let lower = best.lower.max(found.lower);
            if found.upper <= best.upper {
                best = found;
                reached = look_ahead;
            }
            best.lower = lower;
            if best.upper - best.lower <= 1e-9 * best.upper || self.exhausted() {
                break;
            }
        }
        (best, reached)
    }

    /// Bounds of a node. A plan that costs `cutoff` or more is of no use to the caller: the search may stop once
    /// the lower bound reaches it.
    pub(super) fn bounds(&mut self, node: &Node, look_ahead: usize, cutoff: f64) -> Bounds {
        let stop = self.problem.terms.go_without * node.belief.mass;
        if node.left.tries == 0 || node.belief.rows.is_empty() {
            return Bounds { lower: stop, upper: stop, choice: None };
        }
        let look_ahead = look_ahead.min(node.left.tries);
        let mut key = (node.path.clone(), look_ahead, node.left.minutes.unwrap_or(0.0).to_bits());
        // What was cut off costs at least the old cutoff: no loss where that is no less than what is asked now, or
        // than what was found.
        if let Some((known, asked)) = self.solved.get(&key)
            && (known.lower >= cutoff || cutoff <= *asked || known.upper <= *asked)
        {
            return *known;
        }
        if look_ahead > 0 && !self.exhausted() {
            let found = self.explore(node, look_ahead, cutoff, stop);
            self.solved.insert(key, (found, cutoff));
            return found;
        }
        key.1 = 0;
        if let Some((known, _)) = self.solved.get(&key) {
            return *known;
        }
        let found = self.thumb(node, stop);
        self.solved.insert(key, (found, f64::INFINITY));
        found
    }

    /// The nodes after trying a candidate, by report.
    pub(super) fn children(&mut self, node: &Node, candidate: usize) -> Vec<(Reports, Node)> {
        let tried = self.tried(node, candidate);
        let branches = self.branches(&tried.split).into_iter();
        branches.map(|reports| (reports, self.child(node, candidate, &tried, reports))).collect()
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

    fn branches(&self, split: &Split) -> Vec<Reports> {
        let fold = if self.is_deaf { Fold::ALL } else { self.problem.terms.fold };
        split.branches(self.problem, fold)
    }

    fn exhausted(&self) -> bool {
        self.work >= self.effort.work
    }

    /// Untried candidates that the time left allows, the most promising first.
    fn order(&self, node: &Node) -> Vec<usize> {
        (0..self.problem.candidates())
            .filter(|candidate| self.allows(node, *candidate))
            .sorted_by(|a, b| node.quick[*a].total_cmp(&node.quick[*b]).then(a.cmp(b)))
            .collect()
    }

    fn explore(&mut self, node: &Node, look_ahead: usize, cutoff: f64, stop: f64) -> Bounds {
        let mut best = Bounds { lower: stop, upper: stop, choice: None };
        for (explored, candidate) in self.order(node).into_iter().enumerate() {
            let bar = best.upper.min(cutoff);
            if node.quick[candidate] >= bar || explored >= self.effort.breadth {
                best.lower = best.lower.min(node.quick[candidate]);
                break;
            }
            let found = self.try_at(node, candidate, look_ahead, bar);
            best.lower = best.lower.min(found.lower);
            if found.upper < best.upper {
                best.upper = found.upper;
                best.choice = Some(candidate);
            }
        }
        best.lower = best.lower.min(best.upper);
        best
    }

    /// Bounds of trying one candidate here.
    fn try_at(&mut self, node: &Node, candidate: usize, look_ahead: usize, bar: f64) -> Bounds {
        if node.left.tries == 1 {
            let cost = self.last(node, candidate);
            return Bounds { lower: cost, upper: cost, choice: None };
        }
        let tried = self.tried(node, candidate);
        let branches = self.branches(&tried.split);
        let floors = branches.iter().map(|reports| self.floor(&tried, *reports)).collect_vec();
        let mut lower = tried.split.minutes + floors.iter().sum::<f64>();
        let mut upper = tried.split.minutes;
        for (reports, floor) in branches.into_iter().zip(floors) {
            if lower >= bar {
                return Bounds { lower, upper: f64::INFINITY, choice: None };
            }
            let child = self.child(node, candidate, &tried, reports);
            let found = self.bounds(&child, look_ahead - 1, bar - (lower - floor));
            upper += found.upper;
            // Folded reasons share one next try, which a finer plan need not: only their own floors hold for it.
            if reports.single().is_some() {
                lower += (found.lower - floor).max(0.0);
            }
        }
        Bounds { lower, upper, choice: None }
    }

    /// What the last try of a path costs: a failure means going without.
    fn last(&self, node: &Node, candidate: usize) -> f64 {
        let fits = node.belief.fit_probability(&self.problem.outcome[candidate]);
        let fails = node.belief.mass * (1.0 - fits);
        node.belief.sum(&self.problem.minutes[candidate]) + self.problem.terms.go_without * fails
    }

    /// What the branches of these reports cost at least, each report on its own.
    fn floor(&self, tried: &Tried, reports: Reports) -> f64 {
        reports
            .numbers()
            .map(|number| {
                let one = Reports::one(number);
                let stop = self.problem.terms.go_without * tried.split.probability(self.problem, one);
                let (stray, own) = (self.problem.stray(), self.problem.own());
                let sums = tried.total.iter().zip(&tried.sums[usize::from(number) - 1]);
                sums.map(|(total, sum)| stray * total + own * sum).fold(stop, f64::min)
            })
            .sum()
    }

    fn tried(&mut self, node: &Node, candidate: usize) -> Rc<Tried> {
        if let Some(known) = self.at_root.get(&candidate).filter(|_| node.path.is_empty()) {
            return Rc::clone(known);
        }
        let split = node.belief.split(self.problem, candidate);
        let width = self.problem.candidates();
        self.work += (split.fails() * width) as u64;
        let sums = split.sums(width, |row| &self.value[row as usize * width..][..width]);
        let mut total = vec![0.0; width];
        for sums in &sums {
            total.iter_mut().zip(sums).for_each(|(total, sum)| *total += sum);
        }
        let tried = Rc::new(Tried { split, sums, total });
        if node.path.is_empty() {
            self.at_root.insert(candidate, Rc::clone(&tried));
        }
        tried
    }

    /// What each candidate costs at least after one of these reports.
    fn mix(&self, tried: &Tried, reports: Reports) -> Vec<f64> {
        let (stray, own) = (self.problem.stray() * f64::from(reports.0.count_ones()), self.problem.own());
        let mut mixed = tried.total.iter().map(|total| stray * total).collect_vec();
        for number in reports.numbers().take_while(|number| *number <= self.problem.reasons) {
            let sums = &tried.sums[usize::from(number) - 1];
            mixed.iter_mut().zip(sums).for_each(|(mixed, sum)| *mixed += own * sum);
        }
        mixed
    }

    fn child(&self, node: &Node, candidate: usize, tried: &Tried, reports: Reports) -> Node {
        let mut path = node.path.clone();
        let step = (candidate, reports);
        path.insert(path.partition_point(|earlier| *earlier < step), step);
        let left = Left {
            tries: node.left.tries - 1,
            minutes: node.left.minutes.map(|minutes| minutes - tried.split.minutes / node.belief.mass),
        };
        Node { belief: tried.split.after(self.problem, reports), path, left, quick: self.mix(tried, reports) }
    }

    /// The rule of thumb: try what would be best if every later try were the right one.
    fn thumb(&mut self, node: &Node, stop: f64) -> Bounds {
        let order = self.order(node);
        let floor = order.first().map_or(stop, |candidate| node.quick[*candidate]);
        let lower = stop.min(floor);
        let Some(&candidate) = order.first().filter(|_| floor < stop) else {
            return Bounds { lower, upper: stop, choice: None };
        };
        let upper = if node.left.tries == 1 { self.last(node, candidate) } else { self.roll_out(node, candidate) };
        let choice = (upper < stop).then_some(candidate);
        Bounds { lower, upper: upper.min(stop), choice }
    }

    /// What trying a candidate costs when the rule of thumb goes on from there.
    fn roll_out(&mut self, node: &Node, candidate: usize) -> f64 {
        let tried = self.tried(node, candidate);
        let mut cost = tried.split.minutes;
        for reports in self.branches(&tried.split) {
            let child = self.child(node, candidate, &tried, reports);
            cost += self.bounds(&child, 0, f64::INFINITY).upper;
        }
        cost
    }
}

/// What each row costs at least, when it knows itself: its cheapest fit, or going without.
fn least_cost(problem: &Problem) -> Vec<f64> {
    let mut least = vec![problem.terms.go_without; problem.weight.len()];
    for (outcome, minutes) in problem.outcome.iter().zip(&problem.minutes) {
        for (row, least) in least.iter_mut().enumerate() {
            if outcome[row] == 0 {
                *least = least.min(minutes[row]);
            }
        }
    }
    least
}
