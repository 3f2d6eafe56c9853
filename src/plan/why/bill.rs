//! What a plan takes from a step on, judge by judge, and where the difference to another comes from.

use super::super::belief::Belief;
use super::super::judge::{Panel, Tally};
use super::super::policy::Step;
use crate::fit::Quote;
use itertools::Itertools;

/// What is to come, each with its error.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ToCome {
    /// Helmets put on.
    pub tries: Quote,
    /// Minutes of all tries.
    pub minutes: Quote,
    /// Probability of leaving without.
    pub no_fit: Quote,
    /// Minutes, going without counted.
    pub cost: Quote,
}

/// A difference of costs in minutes, split into four that add up to it. Each is positive where it speaks against the
/// one that is compared with the plan's choice.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shares {
    /// The try itself takes longer: its pads.
    pub pads: Quote,
    /// It fails more often.
    pub fails: Quote,
    /// Whomever it fails is harder to serve, even where nobody hears why.
    pub unheard: Quote,
    /// What is heard when it fails tells less.
    pub heard: Quote,
}

/// Adds up what plans take for the judges' heads that got somewhere.
pub(super) struct Cashier<'c> {
    pub(super) panel: &'c Panel<'c>,
    pub(super) here: &'c [Belief],
    /// What going without costs, minutes.
    pub(super) go_without: f64,
}

/// What a plan takes, by judge. All but `mass` in minutes times the probability of getting here.
pub(super) struct Bill {
    mass: Vec<f64>,
    /// The first try.
    first: Vec<f64>,
    /// Mass of the heads that it fails.
    fails: Vec<f64>,
    tally: Tally,
    cost: Vec<f64>,
    /// The cost where nobody hears why the first try fails.
    unheard: Vec<f64>,
}

impl Cashier<'_> {
    /// The bill of a plan; `unheard` is the same where nobody hears why its first try fails.
    pub(super) fn bill(&self, plan: &Step, unheard: &Step) -> Bill {
        let (panel, here) = (self.panel, self.here);
        let tally = panel.take(Some(plan), here);
        let alone = Step::plain(plan.candidate, plan.source, Vec::new());
        let fitted = panel.fitted(plan.candidate, here);
        let mass = self.mass();
        Bill {
            first: panel.take(Some(&alone), here).minutes,
            fails: mass.iter().zip(fitted).map(|(mass, fits)| mass - fits.mass).collect(),
            cost: self.cost(&tally),
            unheard: self.cost(&panel.take(Some(unheard), here)),
            tally,
            mass,
        }
    }

    /// Minutes more than a plan that leaving at once costs.
    pub(super) fn leaving(&self, bill: &Bill) -> Quote {
        bill.mean(&difference(&self.cost(&self.panel.take(None, self.here)), &bill.cost))
    }

    fn mass(&self) -> Vec<f64> {
        self.here.iter().map(|belief| belief.mass).collect()
    }

    fn cost(&self, tally: &Tally) -> Vec<f64> {
        tally.cost(self.go_without)
    }
}

impl Bill {
    /// Expected minutes of the first try.
    pub(super) fn first_minutes(&self) -> Quote {
        self.mean(&self.first)
    }

    /// All that is to come.
    pub(super) fn to_come(&self) -> ToCome {
        ToCome {
            tries: self.mean(&self.tally.tries),
            minutes: self.mean(&self.tally.minutes),
            no_fit: self.mean(&self.tally.no_fit),
            cost: self.mean(&self.cost),
        }
    }

    /// Minutes that hearing why the first try fails saves after a failure.
    pub(super) fn hearing(&self) -> Quote {
        Quote::ratio(difference(&self.unheard, &self.cost).into_iter().zip(self.fails.iter().copied()))
    }

    /// Minutes more than another plan costs on the same heads.
    pub(super) fn more_than(&self, other: &Self) -> Quote {
        self.mean(&difference(&self.cost, &other.cost))
    }

    /// Where the difference comes from. With p the probability that the first try fails and c = u - h what is to come
    /// then (u unheard, h saved by hearing): Δ(pc) = Δp · mean of both c + mean of both p · (Δu - Δh).
    pub(super) fn shares(&self, other: &Self) -> Shares {
        let [mut fails, mut unheard, mut heard] = [const { Vec::new() }; 3];
        for judge in 0..self.mass.len() {
            let [p, own_p] = [other.fails[judge], self.fails[judge]];
            let [then, own] = [other.after_failure(judge), self.after_failure(judge)];
            // Whoever never fails has nothing to come, and no say in how bad that would be.
            let [u, h] = then.or(own).unwrap_or_default();
            let [own_u, own_h] = own.or(then).unwrap_or_default();
            fails.push((own_p - p) * f64::midpoint(u - h, own_u - own_h));
            unheard.push(f64::midpoint(p, own_p) * (own_u - u));
            heard.push(f64::midpoint(p, own_p) * (h - own_h));
        }
        Shares {
            pads: self.mean(&difference(&self.first, &other.first)),
            fails: self.mean(&fails),
            unheard: self.mean(&unheard),
            heard: self.mean(&heard),
        }
    }

    /// Minutes after a failure where nobody hears why, and how many of them hearing saves.
    fn after_failure(&self, judge: usize) -> Option<[f64; 2]> {
        let fails = self.fails[judge];
        let unheard = self.unheard[judge];
        (fails > 1e-12).then(|| [(unheard - self.first[judge]) / fails, (unheard - self.cost[judge]) / fails])
    }

    /// Minutes after a failure where nobody hears why.
    pub(super) fn unheard(&self) -> Quote {
        Quote::ratio(difference(&self.unheard, &self.first).into_iter().zip(self.fails.iter().copied()))
    }

    fn mean(&self, sums: &[f64]) -> Quote {
        Quote::ratio(sums.iter().copied().zip(self.mass.iter().copied()))
    }
}

fn difference(one: &[f64], other: &[f64]) -> Vec<f64> {
    one.iter().zip(other).map(|(one, other)| one - other).collect_vec()
}
