//! What becomes of each rule when it is followed: how often, how often its target then fits, and what else would.

use super::customers::{Batches, Group};
use super::follow::{Junction, Session, fitting};
use super::rules::Spot;
use super::shelf::Shelf;
use super::weigh::best_sizes;
use crate::fit::Quote;
use crate::plan::Belief;
use crate::profile::Reason;
use std::collections::BTreeMap;

/// One geometric rule, followed.
#[derive(Debug, Clone, PartialEq)]
pub struct RuleFacts {
    /// Its place in the list of rules.
    pub rule: usize,
    /// Share of all customers who go this way.
    pub used: f64,
    /// Of them, the share that the target then fits.
    pub fits: Quote,
    /// Of them, the shares for which the target fails, by true reason, the most common first.
    pub fails: Vec<(Reason, f64)>,
    /// The model that would fit most of them, in the size that suits them best, and their share.
    pub best: Option<(usize, f64)>,
    /// What most of them do.
    pub usual: Option<Usual>,
}

/// The helmet that failed and the one that follows, as most customers of a rule meet them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Usual {
    /// What failed: its place in [`super::Audit::candidates`].
    pub failed: usize,
    /// What is tried then.
    pub next: usize,
    /// How much wider that one is between its liners, by length, breadth and face width, mm; the profiles taken at their
    /// word.
    pub wider: [f64; 3],
}

impl RuleFacts {
    /// Of those who go this way, the share whom the target fails for the same reason again.
    #[must_use]
    pub fn again(&self, reason: Reason) -> f64 {
        self.fails.iter().find(|(again, _)| *again == reason).map_or(0.0, |(_, share)| *share)
    }

    /// The model that would fit more of them than the target does, and their share; by half a point at least, which is
    /// what whole percents show.
    #[must_use]
    pub fn better(&self) -> Option<(usize, f64)> {
        self.best.filter(|(_, fits)| *fits > self.fits.value + 0.005)
    }
}

impl Usual {
    /// How much the next helmet gives way where the reason presses, and closes in where it is loose, mm: below 0 it
    /// is worse there than the one that failed.
    #[must_use]
    pub fn helps(&self, reason: Reason) -> f64 {
        let direction = reason.direction().unwrap_or_default();
        self.wider.iter().zip(direction).map(|(wider, sign)| wider * f64::from(sign)).sum()
    }
}

/// A reason for which a model failed, and the shop has no rule.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Silence {
    /// Where.
    pub spot: Spot,
    /// Share of all customers who come here and leave.
    pub share: f64,
}

/// Sums over junctions.
#[derive(Debug, Clone, Default)]
pub(super) struct Ledger {
    rules: BTreeMap<usize, Sums>,
    silences: BTreeMap<Spot, f64>,
}

#[derive(Debug, Clone, Default)]
struct Sums {
    used: f64,
    /// `(fit, used)` by batch.
    batches: Vec<(f64, f64)>,
    fails: BTreeMap<Reason, f64>,
    /// By model.
    best: Vec<f64>,
    pairs: BTreeMap<(usize, usize), f64>,
}

impl Ledger {
    pub(super) fn note(&mut self, session: &Session<'_>, junctions: &[Junction], batches: &Batches) {
        for junction in junctions {
            let crowd = &junction.standing.crowd;
            let Some((lead, candidate)) = junction.choice else {
                *self.silences.entry(junction.spot).or_default() += crowd.mass;
                continue;
            };
            let Some(rule) = lead.rule else { continue };
            let sums = self.rules.entry(rule).or_insert_with(|| Sums::of(session, batches));
            sums.used += crowd.mass;
            *sums.pairs.entry((junction.failed, candidate)).or_default() += crowd.mass;
            sums.outcomes(session.group, crowd, candidate);
            let best = best_sizes(session, &junction.standing);
            for model in session.shelf.targets(junction.spot.from) {
                let outcome = best[*model].map(|(_, size)| &session.group.crowd.outcome[size]);
                sums.best[*model] += outcome.map_or(0.0, |outcome| fitting(crowd, outcome));
            }
        }
    }

    /// The rules that were followed.
    pub(super) fn rules(&self, shelf: &Shelf<'_>) -> Vec<RuleFacts> {
        self.rules.iter().map(|(rule, sums)| sums.facts(*rule, shelf)).collect()
    }

    /// Where customers were left alone, most of them first.
    pub(super) fn silences(&self) -> Vec<Silence> {
        let mut silences: Vec<_> =
            self.silences.iter().map(|(spot, share)| Silence { spot: *spot, share: *share }).collect();
        silences.sort_by(|a, b| b.share.total_cmp(&a.share).then(a.spot.cmp(&b.spot)));
        silences
    }
}

impl Sums {
    fn of(session: &Session<'_>, batches: &Batches) -> Self {
        Self {
            batches: vec![(0.0, 0.0); batches.numbers().len()],
            best: vec![0.0; session.shelf.models().len()],
            ..Self::default()
        }
    }

    fn outcomes(&mut self, group: &Group, crowd: &Belief, candidate: usize) {
        for (row, weight) in crowd.rows.iter().zip(&crowd.weight) {
            let row = *row as usize;
            let outcome = group.crowd.outcome[candidate][row];
            let reason = usize::from(outcome).checked_sub(1).and_then(|at| Reason::geometric().get(at));
            let (fit, used) = &mut self.batches[group.batch[row]];
            *used += weight;
            match reason {
                None => *fit += weight,
                Some(reason) => *self.fails.entry(*reason).or_default() += weight,
            }
        }
    }

    fn facts(&self, rule: usize, shelf: &Shelf<'_>) -> RuleFacts {
        let mut fails: Vec<_> = self.fails.iter().map(|(reason, share)| (*reason, share / self.used)).collect();
        fails.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
        let top = |best: Option<(usize, f64)>, next: (usize, f64)| match best {
            Some(best) if best.1 >= next.1 => Some(best),
            _ => Some(next),
        };
        let best = self.best.iter().copied().enumerate().fold(None, top);
        let usual = self.pairs.iter().fold(None, |best: Option<((usize, usize), f64)>, (pair, share)| match best {
            Some(best) if best.1 >= *share => Some(best),
            _ => Some((*pair, *share)),
        });
        RuleFacts {
            rule,
            used: self.used,
            fits: Quote::ratio(self.batches.iter().copied()),
            fails,
            best: best.map(|(model, fits)| (model, fits / self.used)).filter(|(_, fits)| *fits > 0.0),
            usual: usual.map(|((failed, next), _)| Usual { failed, next, wider: shelf.wider(failed, next) }),
        }
    }
}
