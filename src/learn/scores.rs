//! How well tries of customers who were kept apart are foretold, by the profiles as they are and by what was learned.

use super::customers::Visitor;
use super::replay::Reader;
use crate::fit::{FIT, reported};
use crate::score::{Forecast, Row, brier, log_score, reliability};
use crate::unit::Id;
use itertools::Itertools;
use std::collections::BTreeMap;

/// How well tries are foretold.
#[derive(Debug, Clone, PartialEq)]
pub struct Scores {
    /// Customers who were kept apart and tried anything.
    pub customers: usize,
    /// Their tries.
    pub tries: usize,
    /// Of these, those that ended with a fit.
    pub fits: usize,
    /// By the profiles as they are.
    pub before: Score,
    /// By what was learned from the others.
    pub after: Score,
    /// The Brier score before minus after: more than 0 is better.
    pub brier: Difference,
    /// The same for the log score.
    pub log: Difference,
    /// The Brier score's difference by model, where any of its tries was kept apart.
    pub by_model: BTreeMap<Id, Difference>,
}

/// How good forecasts were.
#[derive(Debug, Clone, PartialEq)]
pub struct Score {
    /// The Brier score.
    pub brier: f64,
    /// The log score, nats.
    pub log: f64,
    /// What was said against what happened.
    pub reliability: Vec<Row>,
}

/// A mean difference of scores on the same tries.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Difference {
    /// The mean.
    pub mean: f64,
    /// Its standard error; the tries of one customer count as one draw.
    pub error: f64,
    /// Tries.
    pub tries: usize,
}

impl Difference {
    /// Whether it is worse by more than two standard errors: less may be chance.
    #[must_use]
    pub fn is_worse(&self) -> bool {
        self.mean < -2.0 * self.error
    }
}

/// Heads for one forecast: its sampling error is below 0.02, which adds less than 0.0004 to both Brier scores.
const HEADS: usize = 1024;
const BINS: usize = 5;

/// A try that was foretold twice.
struct Foretold<'a> {
    visitor: usize,
    model: &'a Id,
    before: Forecast,
    after: Forecast,
}

/// Scores these visitors' tries. `None` where geometry speaks of none of them.
pub(super) fn scores(before: &Reader<'_>, after: &Reader<'_>, visitors: &[&Visitor<'_>]) -> Option<Scores> {
    let mut foretold = Vec::new();
    for (at, visitor) in visitors.iter().enumerate() {
        let said = forecasts(before, visitor).into_iter().zip(forecasts(after, visitor));
        for (record, (before, after)) in visitor.records.iter().zip(said) {
            if let (Some(before), Some(after)) = (before, after) {
                foretold.push(Foretold { visitor: at, model: &record.model, before, after });
            }
        }
    }
    let [before, after] = [before_of, after_of].map(|of| foretold.iter().map(of).collect_vec());
    let score = |forecasts: &[Forecast]| {
        Some(Score { brier: brier(forecasts)?, log: log_score(forecasts)?, reliability: reliability(forecasts, BINS) })
    };
    let by_model = foretold.iter().map(|one| (one.model.clone(), one)).into_group_map();
    Some(Scores {
        customers: foretold.iter().map(|one| one.visitor).unique().count(),
        tries: foretold.len(),
        fits: before.iter().filter(|forecast| forecast.happened).count(),
        before: score(&before)?,
        after: score(&after)?,
        brier: difference(foretold.iter(), squared),
        log: difference(foretold.iter(), surprise),
        by_model: by_model.into_iter().map(|(model, tries)| (model, difference(tries, squared))).collect(),
    })
}

fn before_of(one: &Foretold<'_>) -> Forecast {
    one.before
}

fn after_of(one: &Foretold<'_>) -> Forecast {
    one.after
}

fn squared(forecast: Forecast) -> f64 {
    (forecast.said - if forecast.happened { 1.0 } else { 0.0 }).powi(2)
}

fn surprise(forecast: Forecast) -> f64 {
    -(if forecast.happened { forecast.said } else { 1.0 - forecast.said }).ln()
}

/// By record what was said of it before it was tried, knowing the readings of that hour and the tries before it. `None`
/// for a try that ended with a reason about which geometry is silent.
fn forecasts(reader: &Reader<'_>, visitor: &Visitor<'_>) -> Vec<Option<Forecast>> {
    let misreport = reader.now.shop.misreport;
    let mut said = Vec::new();
    for (at, record) in visitor.records.iter().enumerate() {
        let replayed = reader.replay(visitor, &record.head, HEADS);
        let mut heads = replayed.heads.heads;
        for tried in &replayed.tries[..at] {
            heads.reweight_by(&tried.likelihood(misreport));
        }
        let fits = replayed.tries[at].at_best.iter().zip(&heads.weight).filter(|(truth, _)| **truth == FIT);
        let share: f64 = fits.map(|(_, weight)| weight).sum();
        let last = record.last().and_then(|round| reported(round.reason));
        // No forecast is surer than the heads can be counted.
        #[expect(clippy::cast_precision_loss, reason = "a thousand")]
        let least = 0.5 / HEADS as f64;
        said.push(last.map(|heard| Forecast { said: share.clamp(least, 1.0 - least), happened: heard == FIT }));
    }
    said
}

#[expect(clippy::cast_precision_loss, reason = "far below 2⁵²")]
fn difference<'a>(tries: impl IntoIterator<Item = &'a Foretold<'a>>, score: fn(Forecast) -> f64) -> Difference {
    let better = tries.into_iter().map(|one| (one.visitor, score(one.before) - score(one.after))).collect_vec();
    let count = better.len() as f64;
    if better.is_empty() {
        return Difference::default();
    }
    let mean = better.iter().map(|(_, better)| better).sum::<f64>() / count;
    let mut by_visitor: BTreeMap<usize, f64> = BTreeMap::new();
    for (visitor, better) in &better {
        *by_visitor.entry(*visitor).or_default() += better - mean;
    }
    let squares: f64 = by_visitor.values().map(|sum| sum * sum).sum();
    let visitors = by_visitor.len() as f64;
    let few = visitors / (visitors - 1.0).max(1.0);
    Difference { mean, error: (few * squares).sqrt() / count, tries: better.len() }
}
