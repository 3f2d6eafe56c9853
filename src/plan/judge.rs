//! Judging a plan on heads that did not choose it.

use super::belief::Belief;
use super::choose::problem;
use super::policy::{Source, Step};
use super::problem::{Problem, Reports};
use super::query::Query;
use crate::catalogue::Catalogue;
use crate::fit::{Candidate, FIT, HeadSet, PadSet, Quote};
use crate::head::Moments;
use crate::profile::{Reason, Zone};
use itertools::Itertools;
use std::collections::HashMap;

/// Pads needed by fewer of the heads that fit than this are not worth bringing to the counter.
const BRING_FROM: f64 = 0.05;

/// Judges, and the candidates that they tried.
pub(super) struct Panel<'a> {
    candidates: &'a [Candidate<'a>],
    /// The judges' heads.
    sets: &'a [HeadSet],
    /// Place of a candidate in the judges' tables.
    place: HashMap<usize, usize>,
    judges: Vec<Judge>,
}

struct Judge {
    problem: Problem,
    cells: Vec<[Vec<u8>; 3]>,
}

/// What a plan takes.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Totals {
    /// Helmets put on.
    pub tries: Quote,
    /// Minutes of all tries.
    pub minutes: Quote,
    /// Probability that nothing fits.
    pub no_fit: Quote,
}

/// A step of the plan with its figures.
#[derive(Debug, Clone, PartialEq)]
pub struct JudgedStep {
    /// What to try.
    pub candidate: usize,
    /// Who says so.
    pub source: Source,
    /// Probability of getting here.
    pub reach: f64,
    /// Whoever gets here.
    pub head: Moments,
    /// Probability that it fits with the pads on offer, given that we are here.
    pub fit: Quote,
    /// Expected minutes of the try.
    pub minutes: f64,
    /// Which pads.
    pub pads: Pads,
    /// What the other one, shop or computation, would have tried, and how often it fits.
    pub rival: Option<(usize, Source, Quote)>,
    /// What to do when it fails.
    pub branches: Vec<Branch>,
    /// Rules of the shop for what no geometry tells, with how often their target fits a head that this one fits:
    /// `(rule, candidate, fit)`.
    pub asides: Vec<(usize, usize, Quote)>,
}

/// Pads for a try.
#[derive(Debug, Clone, PartialEq)]
pub struct Pads {
    /// To mount first: standard, but for zones where more than half of the heads that fit end with another pad.
    pub start: PadSet,
    /// Other thicknesses to have at hand, by zone, beyond those that come with the helmet.
    pub bring: Vec<(Zone, f64)>,
    /// Probability that it fits with the start pads alone.
    pub fit_at_once: Quote,
}

/// What to do after a failure.
#[derive(Debug, Clone, PartialEq)]
pub struct Branch {
    /// The reasons; more than one where improbable ones are folded together.
    pub reasons: Vec<Reason>,
    /// Probability of hearing one of them when this step is tried.
    pub probability: Quote,
    /// The next step; `None` where nothing more is worth trying.
    pub next: Option<JudgedStep>,
}

impl<'a> Panel<'a> {
    /// Has the judges try these candidates.
    pub(super) fn new(
        catalogue: &Catalogue,
        query: &Query<'_>,
        candidates: &'a [Candidate<'a>],
        seen: Vec<usize>,
        sets: &'a [HeadSet],
    ) -> Self {
        let chosen = seen.iter().map(|candidate| &candidates[*candidate]).collect_vec();
        let judge = |set: &HeadSet| {
            let tried = set.try_all(catalogue, &query.customer, &chosen);
            let problem = problem(catalogue, query, set, tried.reason, tried.minutes);
            Judge { problem, cells: tried.cells }
        };
        let judges = sets.iter().map(judge).collect();
        Self {
            candidates,
            sets,
            place: seen.into_iter().enumerate().map(|(k, candidate)| (candidate, k)).collect(),
            judges,
        }
    }

    /// Walks every head of every judge through a plan.
    pub(super) fn judge(&self, plan: Option<&Step>) -> (Option<JudgedStep>, Totals) {
        let mut tally = Tally::of(self.judges.len());
        let whole = self.whole();
        let first = self.walk(plan, &whole, &mut tally);
        (first, tally.totals())
    }

    /// The heads of each judge before anything is tried.
    pub(super) fn whole(&self) -> Vec<Belief> {
        self.judges.iter().map(|judge| Belief::whole(&judge.problem)).collect()
    }

    /// The heads of each judge of whom, after a candidate failed, one of these reports is heard.
    pub(super) fn after(&self, candidate: usize, reports: Reports, beliefs: &[Belief]) -> Vec<Belief> {
        let Some(place) = self.place.get(&candidate) else { return Vec::new() };
        let judged = self.judges.iter().zip(beliefs);
        judged.map(|(judge, belief)| belief.split(&judge.problem, *place).after(&judge.problem, reports)).collect()
    }

    /// The heads of each judge that a candidate fits.
    pub(super) fn fitted(&self, candidate: usize, beliefs: &[Belief]) -> Vec<Belief> {
        self.place.get(&candidate).map_or_else(Vec::new, |place| self.fitting(*place, beliefs))
    }

    /// A plan with its figures from some beliefs on.
    pub(super) fn judge_from(&self, plan: &Step, beliefs: &[Belief]) -> Option<JudgedStep> {
        self.walk(Some(plan), beliefs, &mut Tally::of(self.judges.len()))
    }

    /// What a plan takes from some beliefs on.
    pub(super) fn take(&self, plan: Option<&Step>, beliefs: &[Belief]) -> Tally {
        let mut tally = Tally::of(self.judges.len());
        self.count(plan, beliefs, &mut tally);
        tally
    }

    /// How often a candidate fits, and its minutes and pads, before anything is tried.
    pub(super) fn at_root(&self, candidate: usize) -> Option<(Quote, f64, Pads)> {
        let whole = self.whole();
        let place = *self.place.get(&candidate)?;
        let pads = self.pads(candidate, place, &whole, &self.fitting(place, &whole));
        Some((self.fit(candidate, &whole), self.minutes(place, &whole), pads))
    }

    fn walk(&self, step: Option<&Step>, beliefs: &[Belief], tally: &mut Tally) -> Option<JudgedStep> {
        let placed = step.and_then(|step| self.place.get(&step.candidate).map(|place| (step, *place)));
        let Some((step, place)) = placed else {
            tally.stop(beliefs);
            return None;
        };
        let splits =
            self.judges.iter().zip(beliefs).map(|(judge, belief)| belief.split(&judge.problem, place)).collect_vec();
        tally.step(beliefs, splits.iter().map(|split| split.minutes));
        let mut branches = Vec::new();
        for (reports, next) in &step.branches {
            let after = self.judges.iter().zip(&splits).map(|(judge, split)| split.after(&judge.problem, *reports));
            let after = after.collect_vec();
            let probability = Quote::ratio(after.iter().zip(beliefs).map(|(after, here)| (after.mass, here.mass)));
            let next = self.walk(next.as_ref(), &after, tally);
            branches.push(Branch { reasons: reasons(*reports), probability, next });
        }
        let fitting = self.fitting(place, beliefs);
        let aside = |(rule, target): &(usize, usize)| (*rule, *target, self.fit(*target, &fitting));
        Some(JudgedStep {
            candidate: step.candidate,
            source: step.source,
            reach: Quote::of(beliefs.iter().map(|belief| belief.mass)).value,
            head: self.head(beliefs),
            fit: self.fit(step.candidate, beliefs),
            minutes: self.minutes(place, beliefs),
            pads: self.pads(step.candidate, place, beliefs, &fitting),
            rival: step.rival.map(|(candidate, source)| (candidate, source, self.fit(candidate, beliefs))),
            branches,
            asides: step.asides.iter().map(aside).collect(),
        })
    }

    /// The heads of some beliefs, all judges together.
    fn head(&self, beliefs: &[Belief]) -> Moments {
        let heads = self.sets.iter().zip(beliefs).flat_map(|(set, belief)| {
            belief.rows.iter().zip(&belief.weight).map(|(row, weight)| (set.heads.head(*row as usize), *weight))
        });
        Moments::of(heads)
    }

    /// A walk for the sums alone.
    fn count(&self, step: Option<&Step>, beliefs: &[Belief], tally: &mut Tally) {
        let placed = step.and_then(|step| self.place.get(&step.candidate).map(|place| (step, *place)));
        let Some((step, place)) = placed else { return tally.stop(beliefs) };
        let splits =
            self.judges.iter().zip(beliefs).map(|(judge, belief)| belief.split(&judge.problem, place)).collect_vec();
        tally.step(beliefs, splits.iter().map(|split| split.minutes));
        for (reports, next) in &step.branches {
            let after = self.judges.iter().zip(&splits).map(|(judge, split)| split.after(&judge.problem, *reports));
            self.count(next.as_ref(), &after.collect_vec(), tally);
        }
    }

    /// How often a candidate fits.
    pub(super) fn fit(&self, candidate: usize, beliefs: &[Belief]) -> Quote {
        let Some(place) = self.place.get(&candidate) else { return Quote::default() };
        let fits = self.judges.iter().zip(beliefs).map(|(judge, belief)| {
            let outcome = &judge.problem.outcome[*place];
            (belief.fit_probability(outcome) * belief.mass, belief.mass)
        });
        Quote::ratio(fits)
    }

    fn minutes(&self, place: usize, beliefs: &[Belief]) -> f64 {
        let spent = self.judges.iter().zip(beliefs);
        Quote::ratio(spent.map(|(judge, belief)| (belief.sum(&judge.problem.minutes[place]), belief.mass))).value
    }

    /// The heads of each belief that a candidate fits.
    fn fitting(&self, place: usize, beliefs: &[Belief]) -> Vec<Belief> {
        let keep = |(judge, belief): (&Judge, &Belief)| belief.keep(|row| judge.problem.outcome[place][row] == FIT);
        self.judges.iter().zip(beliefs).map(keep).collect()
    }

    /// Pads for a candidate; `fitting` are the heads of the beliefs that it fits.
    fn pads(&self, candidate: usize, place: usize, beliefs: &[Belief], fitting: &[Belief]) -> Pads {
        let known = &self.candidates[candidate];
        let reached = self.cells_reached(place, fitting);
        let total: f64 = fitting.iter().map(|belief| belief.mass).sum();
        let mut pads = Pads { start: known.size.standard, bring: Vec::new(), fit_at_once: Quote::default() };
        let mut good = [[true; 256]; 3];
        for (axis, table) in known.axes.iter().enumerate() {
            let Some(table) = table else { continue };
            let mut ends = vec![0.0; table.options.len()];
            for (cell, mass) in table.cells.iter().zip(&reached[axis]) {
                ends[cell.option] += mass;
            }
            let mounted = ends.iter().position(|mass| *mass > total / 2.0).unwrap_or(0);
            for (zone, mm) in &table.options[mounted].pads {
                *pads.start.get_mut(*zone) = Some(*mm);
            }
            let wanted = (0..ends.len()).filter(|k| ends[*k] >= BRING_FROM * total && ends[*k] > 0.0);
            pads.bring.extend(wanted.flat_map(|k| table.options[k].pads.iter().copied()));
            for (good, cell) in good[axis].iter_mut().zip(&table.cells) {
                *good = cell.good >> mounted & 1 == 1;
            }
        }
        let at_hand = |(zone, mm): &(Zone, f64)| {
            let same = |own: &f64| (own - mm).abs() < 1e-9;
            [known.size.standard, pads.start].iter().any(|set| set.get(*zone).as_ref().is_some_and(same))
        };
        pads.bring.retain(|pad| !at_hand(pad));
        pads.bring.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
        pads.bring.dedup_by(|a, b| a.0 == b.0 && (a.1 - b.1).abs() < 1e-9);
        pads.fit_at_once = self.fit_at_once(place, &good, beliefs, fitting);
        pads
    }

    /// By axis and cell of a candidate's tables: how much of these heads lies there.
    fn cells_reached(&self, place: usize, heads: &[Belief]) -> [[f64; 256]; 3] {
        let mut reached = [[0.0; 256]; 3];
        for (judge, belief) in self.judges.iter().zip(heads) {
            let [length, breadth, face] = &judge.cells[place];
            for (row, weight) in belief.rows.iter().zip(&belief.weight) {
                let row = *row as usize;
                reached[0][usize::from(length[row])] += weight;
                reached[1][usize::from(breadth[row])] += weight;
                reached[2][usize::from(face[row])] += weight;
            }
        }
        reached
    }

    /// How often every axis is in a cell that is good with the start pads.
    fn fit_at_once(&self, place: usize, good: &[[bool; 256]; 3], beliefs: &[Belief], fitting: &[Belief]) -> Quote {
        let at_once = |judge: &Judge, heads: &Belief| {
            let [length, breadth, face] = &judge.cells[place];
            let good = |row: usize| {
                good[0][usize::from(length[row])]
                    && good[1][usize::from(breadth[row])]
                    && good[2][usize::from(face[row])]
            };
            let heads = heads.rows.iter().zip(&heads.weight).filter(|(row, _)| good(**row as usize));
            heads.map(|(_, weight)| weight).sum::<f64>()
        };
        let judged = self.judges.iter().zip(fitting).zip(beliefs);
        Quote::ratio(judged.map(|((judge, fitting), here)| (at_once(judge, fitting), here.mass)))
    }
}

/// Sums by judge while a plan is walked, each times the probability of getting there.
pub(super) struct Tally {
    pub(super) tries: Vec<f64>,
    pub(super) minutes: Vec<f64>,
    pub(super) no_fit: Vec<f64>,
}

impl Tally {
    fn of(judges: usize) -> Self {
        Self { tries: vec![0.0; judges], minutes: vec![0.0; judges], no_fit: vec![0.0; judges] }
    }

    fn step(&mut self, beliefs: &[Belief], minutes: impl Iterator<Item = f64>) {
        for (k, (belief, minutes)) in beliefs.iter().zip(minutes).enumerate() {
            self.tries[k] += belief.mass;
            self.minutes[k] += minutes;
        }
    }

    fn stop(&mut self, beliefs: &[Belief]) {
        for (sum, belief) in self.no_fit.iter_mut().zip(beliefs) {
            *sum += belief.mass;
        }
    }

    /// Minutes by judge, going without counted.
    pub(super) fn cost(&self, go_without: f64) -> Vec<f64> {
        self.minutes.iter().zip(&self.no_fit).map(|(spent, without)| spent + go_without * without).collect()
    }

    fn totals(&self) -> Totals {
        let [tries, minutes, no_fit] =
            [&self.tries, &self.minutes, &self.no_fit].map(|sums| Quote::of(sums.iter().copied()));
        Totals { tries, minutes, no_fit }
    }
}

/// The reasons behind some reports.
pub(super) fn reasons(reports: Reports) -> Vec<Reason> {
    reports.numbers().map(|number| Reason::geometric()[usize::from(number) - 1]).collect()
}
