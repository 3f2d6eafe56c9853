//! Sets of heads that stand for one customer.

use super::query::{Query, Worn};
use crate::catalogue::Catalogue;
use crate::fit::{Candidate, EffectiveHeads, FIT, Outcomes, evaluate};
use crate::head::{Moments, PARTICLES, Particles, Posterior};
use crate::profile::Reason;
use itertools::Itertools;

/// A candidate that fits fewer heads than this is not worth a look.
const SCREENED_FROM: f64 = 0.005;

/// One set of heads, weighted by everything that is known.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct HeadSet {
    pub(super) heads: Particles,
    pub(super) effective: EffectiveHeads,
    scramble: u32,
}

/// The head as inferred.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate {
    /// Means and standard deviations of C, L, B, W and the shape index.
    pub moments: Moments,
    /// Sampling error of the means: four standard errors.
    pub mean_error: [f64; 5],
    /// Sampling error of the standard deviations.
    pub sd_error: [f64; 5],
    /// Share of heads that are less unusual than the readings.
    pub rarity: f64,
    /// Heads of a set that effectively count; few when the evidence is surprising.
    pub effective_heads: f64,
}

impl HeadSet {
    /// Draws `count` heads of scramble number `scramble`, and weighs them by the helmets that the customer wears.
    pub(super) fn draw(catalogue: &Catalogue, query: &Query<'_>, count: usize, scramble: u32) -> Self {
        let mut heads = Particles::draw(&query.head, count, query.seed, scramble);
        let effective = EffectiveHeads::of(&heads, catalogue.shop.fit.outline);
        let mut set = Self { heads: Particles::default(), effective, scramble };
        for worn in &query.worn {
            heads.reweight_by(&set.likelihood(catalogue, query, worn));
        }
        set.heads = heads;
        set
    }

    /// Tries candidates (of one model side by side) on every head, each with its own profile errors.
    pub(super) fn try_all(&self, catalogue: &Catalogue, query: &Query<'_>, candidates: &[&Candidate<'_>]) -> Outcomes {
        let shop = &catalogue.shop;
        evaluate(candidates, &self.effective, &shop.fit, &shop.minutes, (query.seed, self.scramble))
    }

    /// The candidates that fit at least about [`SCREENED_FROM`] of the heads: the others are left out of the plan.
    /// An eighth of the heads is enough to tell.
    pub(super) fn screen<'a>(
        &self,
        catalogue: &Catalogue,
        query: &Query<'_>,
        candidates: Vec<Candidate<'a>>,
    ) -> Vec<Candidate<'a>> {
        let few = self.effective.first(PARTICLES / 8);
        let shop = &catalogue.shop;
        let seeds = (query.seed, self.scramble);
        let tried = evaluate(&candidates.iter().collect_vec(), &few, &shop.fit, &shop.minutes, seeds);
        let weight = &self.heads.weight[..PARTICLES / 8];
        let least = SCREENED_FROM * weight.iter().sum::<f64>();
        let fits = tried.reason.iter().map(|reasons| {
            let fitting = reasons.iter().zip(weight).filter(|(reason, _)| **reason == FIT);
            fitting.map(|(_, weight)| weight).sum::<f64>() >= least
        });
        candidates.into_iter().zip(fits).filter(|(_, fits)| *fits).map(|(candidate, _)| candidate).collect()
    }

    /// How probable what a worn helmet does is for each head. Any report may be a wrong one, so none is 0.
    fn likelihood(&self, catalogue: &Catalogue, query: &Query<'_>, worn: &Worn<'_>) -> Vec<f64> {
        let sizes = Candidate::of_models([worn.model], catalogue);
        let tried = sizes.iter().filter(|candidate| candidate.size.label == worn.size).collect_vec();
        let outcomes = self.try_all(catalogue, query, &tried);
        let Some(reported) = reported(worn.reason) else { return vec![1.0; outcomes.heads()] };
        let misreport = catalogue.shop.misreport;
        let others = u32::try_from(Reason::GEOMETRIC).map_or(1.0, f64::from);
        let likelihood = |truth: &u8| if *truth == reported { 1.0 - misreport } else { misreport / others };
        outcomes.reason.iter().flatten().map(likelihood).collect()
    }
}

/// Sums up sets that stand for the same customer.
pub(super) fn estimate(head: &Posterior, sets: &[HeadSet]) -> Estimate {
    let moments = sets.iter().map(|set| set.heads.moments()).collect_vec();
    let column = |value: fn(&Moments) -> &[f64; 5], k: usize| spread(moments.iter().map(|m| value(m)[k]));
    let means = [0, 1, 2, 3, 4].map(|k| column(|m| &m.mean, k));
    let sds = [0, 1, 2, 3, 4].map(|k| column(|m| &m.sd, k));
    #[expect(clippy::cast_precision_loss, reason = "a handful")]
    let count = sets.len() as f64;
    Estimate {
        moments: Moments { mean: means.map(|m| m.0), sd: sds.map(|s| s.0) },
        mean_error: means.map(|m| m.1),
        sd_error: sds.map(|s| s.1),
        rarity: head.rarity(),
        effective_heads: sets.iter().map(|set| set.heads.effective_size()).sum::<f64>() / count,
    }
}

/// Mean of values from independent scrambles, and four standard errors of it.
pub(super) fn spread(values: impl Iterator<Item = f64>) -> (f64, f64) {
    let values = values.collect_vec();
    #[expect(clippy::cast_precision_loss, reason = "a handful")]
    let n = values.len() as f64;
    let mean = values.iter().sum::<f64>() / n;
    let variance = values.iter().map(|value| (value - mean).powi(2)).sum::<f64>() / (n - 1.0).max(1.0);
    (mean, 4.0 * (variance / n).sqrt())
}

/// The number of an outcome as a person reports it; `None` where geometry is silent about it.
fn reported(reason: Option<Reason>) -> Option<u8> {
    let Some(reason) = reason else { return Some(FIT) };
    let geometric = reason.direction().and_then(Reason::from_direction)?;
    let place = Reason::geometric().iter().position(|known| *known == geometric)?;
    u8::try_from(place + 1).ok()
}
