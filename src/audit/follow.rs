//! Following the shop's graph with everybody of a group at once.
//!
//! Two sets of heads stand side by side. The *chooser* is what a fitter can know: heads that go with the readings. It
//! says which size a rule's target is handed out in. The *crowd* are the customers themselves: they say what comes of it.

use super::customers::Group;
use super::rules::{Lead, Patched, Spot};
use super::shelf::Shelf;
use crate::fit::FIT;
use crate::plan::{Belief, Reports, Split};
use crate::profile::Reason;

/// Shares of the known heads that differ by less are the same.
const SAME: f64 = 1e-9;

/// One group with everything that following needs.
pub(super) struct Session<'s> {
    pub(super) shelf: &'s Shelf<'s>,
    /// What a fitter can know.
    pub(super) chooser: &'s Chooser,
    /// The customers; columns as on the shelf.
    pub(super) group: &'s Group,
    /// What goes on first.
    pub(super) first: Option<usize>,
    /// The tape reading, or what the readings let expect of it, mm.
    pub(super) tape: f64,
}

/// Heads that go with the readings, in every helmet.
pub(super) struct Chooser {
    /// Weight of each head; they add up to 1.
    pub(super) weight: Vec<f64>,
    /// By candidate of the shelf and head: what becomes of it.
    pub(super) outcome: Vec<Vec<u8>>,
}

/// Who has failed everything so far, before the next try.
#[derive(Debug, Clone)]
pub(super) struct Standing {
    pub(super) chooser: Belief,
    pub(super) crowd: Belief,
    /// In the order of the tries.
    pub(super) tried: Vec<usize>,
}

/// A failure that was heard while tries were left: here a rule is asked for.
pub(super) struct Junction {
    pub(super) spot: Spot,
    /// The candidate that failed.
    pub(super) failed: usize,
    pub(super) standing: Standing,
    /// The rule that is followed, and what it says to try; `None` where there is no rule.
    pub(super) choice: Option<(Lead, usize)>,
    /// The junction whose choice failed here; `None` for the first try.
    pub(super) before: Option<usize>,
    /// What everything from here on costs, minutes × share of all customers.
    pub(super) cost: f64,
}

/// What somebody who watches the customers wants to know.
pub(super) trait Watch {
    /// These customers try a candidate.
    fn tries(&mut self, crowd: &Belief, candidate: usize);
    /// These customers leave without a helmet.
    fn leaves(&mut self, crowd: &Belief);
}

/// Nobody watches.
pub(super) struct Unseen;

impl Watch for Unseen {
    fn tries(&mut self, _: &Belief, _: usize) {}
    fn leaves(&mut self, _: &Belief) {}
}

impl Session<'_> {
    pub(super) fn whole(&self) -> Standing {
        Standing {
            chooser: Belief::all(&self.chooser.weight),
            crowd: Belief::whole(&self.group.crowd),
            tried: Vec::with_capacity(self.group.crowd.terms.tries),
        }
    }

    /// What each report leaves when a candidate goes on first and fails, with the spot where a rule is asked for.
    pub(super) fn after_first(&self, candidate: usize) -> impl Iterator<Item = (Spot, Standing)> {
        let after = After::of(self, &self.whole(), candidate);
        let numbers = self.numbers();
        numbers.map(move |number| (self.spot(candidate, number), after.standing(self, number)))
    }

    /// Follows the graph from the first try on, and notes every junction, those before their own next ones.
    pub(super) fn trace(&self, rules: Patched<'_>, watch: &mut impl Watch) -> (f64, Vec<Junction>) {
        let mut junctions = Vec::new();
        let whole = self.whole();
        let cost = match self.first {
            Some(first) => self.try_and_note(rules, &whole, first, None, (watch, &mut junctions)),
            None => self.leave(&whole.crowd, watch),
        };
        (cost, junctions)
    }

    /// What trying a candidate and following the graph from there costs, and whether the patch was asked on the way.
    pub(super) fn cost(&self, rules: Patched<'_>, standing: &Standing, candidate: usize) -> (f64, bool) {
        if self.is_last(standing) {
            return (self.cost_of_last(&standing.crowd, candidate), false);
        }
        let after = After::of(self, standing, candidate);
        let mut cost = after.crowd.minutes;
        let mut is_patched = false;
        for number in self.numbers() {
            let mass = after.crowd.probability(&self.group.crowd, Reports::one(number));
            if mass <= 0.0 {
                continue;
            }
            let (leads, patched) = rules.at(self.spot(candidate, number));
            is_patched |= patched;
            let options = self.options(rules, leads, candidate, &after.tried);
            let chooser = || after.chooser.after(&self.group.crowd, Reports::one(number));
            let Some((_, next)) = self.choose(&options, chooser) else {
                cost += self.go_without() * mass;
                continue;
            };
            if after.tried.len() + 1 >= self.group.crowd.terms.tries {
                let last = |row: u32| self.cost_of_last_in(row as usize, next);
                cost += after.crowd.sum_after(&self.group.crowd, Reports::one(number), last);
            } else {
                let (rest, patched) = self.cost(rules, &after.standing(self, number), next);
                cost += rest;
                is_patched |= patched;
            }
        }
        (cost, is_patched)
    }

    /// The helmets that leads allow after one that failed, and that were not tried yet.
    pub(super) fn options(
        &self,
        rules: Patched<'_>,
        leads: &[Lead],
        failed: usize,
        tried: &[usize],
    ) -> Vec<(Lead, usize)> {
        let sizes = |lead: &Lead| {
            let lead = *lead;
            rules.rules.sizes(self.shelf, lead, failed).iter().map(move |size| (lead, *size))
        };
        leads.iter().flat_map(sizes).filter(|(_, size)| !tried.contains(size)).collect()
    }

    /// The lead that is followed, and the size: what fits the chooser's heads most often, then what is nearest to the
    /// tape, then the first. A rule is followed even where nothing that the fitter knows speaks for it. The heads are
    /// asked for only where there is a choice.
    pub(super) fn choose(&self, options: &[(Lead, usize)], chooser: impl FnOnce() -> Belief) -> Option<(Lead, usize)> {
        let first = *options.first()?;
        if options.len() == 1 {
            return Some(first);
        }
        let chooser = chooser();
        best_of(options.iter().map(|option| (self.worth(&chooser, option.1), *option))).map(|(_, option)| option)
    }

    /// What speaks for a size: the chooser's heads that it fits, then how near it is to the tape.
    pub(super) fn worth(&self, chooser: &Belief, candidate: usize) -> (f64, f64) {
        // The same heads summed up in another order differ in the last digits: no reason for another size.
        let fits = (fitting(chooser, &self.chooser.outcome[candidate]) / SAME).round();
        (fits, -self.shelf.off(candidate, self.tape))
    }

    pub(super) fn spot(&self, failed: usize, number: u8) -> Spot {
        Spot { from: self.shelf.model(failed), reason: Reason::geometric()[usize::from(number) - 1] }
    }

    pub(super) fn go_without(&self) -> f64 {
        self.group.crowd.terms.go_without
    }

    /// Whether the next try is the last that a customer puts up with.
    fn is_last(&self, standing: &Standing) -> bool {
        standing.tried.len() + 1 >= self.group.crowd.terms.tries
    }

    /// What the last try costs: a failure means going without.
    pub(super) fn cost_of_last(&self, crowd: &Belief, candidate: usize) -> f64 {
        let heads = crowd.rows.iter().zip(&crowd.weight);
        heads.map(|(row, weight)| weight * self.cost_of_last_in(*row as usize, candidate)).sum()
    }

    fn cost_of_last_in(&self, row: usize, candidate: usize) -> f64 {
        let crowd = &self.group.crowd;
        crowd.minutes[candidate][row] + if crowd.outcome[candidate][row] == FIT { 0.0 } else { self.go_without() }
    }

    fn numbers(&self) -> impl Iterator<Item = u8> + use<> {
        1..=self.group.crowd.reasons
    }

    fn try_and_note(
        &self,
        rules: Patched<'_>,
        standing: &Standing,
        candidate: usize,
        before: Option<usize>,
        (watch, junctions): (&mut impl Watch, &mut Vec<Junction>),
    ) -> f64 {
        watch.tries(&standing.crowd, candidate);
        if self.is_last(standing) {
            let outcome = &self.group.crowd.outcome[candidate];
            watch.leaves(&standing.crowd.keep(|row| outcome[row] != FIT));
            return self.cost_of_last(&standing.crowd, candidate);
        }
        let after = After::of(self, standing, candidate);
        let mut cost = after.crowd.minutes;
        for number in self.numbers() {
            let next = after.standing(self, number);
            if next.crowd.mass <= 0.0 {
                continue;
            }
            let spot = self.spot(candidate, number);
            let options = self.options(rules, rules.at(spot).0, candidate, &next.tried);
            let choice = self.choose(&options, || next.chooser.clone());
            let own = junctions.len();
            junctions.push(Junction { spot, failed: candidate, standing: next, choice, before, cost: 0.0 });
            let next = junctions[own].standing.clone();
            let from_here = match choice {
                Some((_, next_try)) => self.try_and_note(rules, &next, next_try, Some(own), (watch, junctions)),
                None => self.leave(&next.crowd, watch),
            };
            junctions[own].cost = from_here;
            cost += from_here;
        }
        cost
    }

    fn leave(&self, crowd: &Belief, watch: &mut impl Watch) -> f64 {
        watch.leaves(crowd);
        self.go_without() * crowd.mass
    }
}

/// A try, and what each report leaves.
struct After {
    chooser: Split,
    crowd: Split,
    tried: Vec<usize>,
}

impl After {
    fn of(session: &Session<'_>, standing: &Standing, candidate: usize) -> Self {
        let crowd = &session.group.crowd;
        let mut tried = standing.tried.clone();
        tried.push(candidate);
        Self {
            chooser: standing.chooser.split_by(&session.chooser.outcome[candidate], crowd.reasons),
            crowd: standing.crowd.split(crowd, candidate),
            tried,
        }
    }

    fn standing(&self, session: &Session<'_>, number: u8) -> Standing {
        let heard = Reports::one(number);
        Standing {
            chooser: self.chooser.after(&session.group.crowd, heard),
            crowd: self.crowd.after(&session.group.crowd, heard),
            tried: self.tried.clone(),
        }
    }
}

/// What most speaks for, the first of equals.
pub(super) fn best_of<T>(options: impl Iterator<Item = ((f64, f64), T)>) -> Option<((f64, f64), T)> {
    options.reduce(|best, next| if next.0 > best.0 { next } else { best })
}

/// Weight of the heads that a candidate fits.
pub(super) fn fitting(belief: &Belief, outcome: &[u8]) -> f64 {
    let heads = belief.rows.iter().zip(&belief.weight);
    heads.filter(|(row, _)| outcome[**row as usize] == FIT).map(|(_, weight)| weight).sum()
}
