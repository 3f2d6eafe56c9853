//! Heads of the shop's population in every model: what the rules about geometry count on.

use crate::catalogue::Catalogue;
use crate::fallback::allows_size;
use crate::fit::Candidate;
use crate::head::{EffectiveHead, Particles, Posterior};
use crate::profile::{Edge, Model, Nature, Reason};
use crate::unit::Id;
use std::collections::BTreeMap;

/// How many heads stand for the population: a share of 10 % comes out right to about half a point.
pub(super) const HEADS: usize = 4096;

/// Heads of the default population, each in the size of every model that a tape would pick, with the best pads on
/// offer. Profiles are taken at their word, and nobody names a wrong reason.
pub(super) struct Sample<'c> {
    heads: Vec<EffectiveHead>,
    models: BTreeMap<&'c Id, Tried<'c>>,
}

/// What becomes, in the target of a rule, of the heads that the rule is for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Led {
    /// Heads for which the first model fails for the rule's reason.
    pub(super) heads: usize,
    /// How many of them fit the target in a size that the rule allows.
    pub(super) fit: usize,
    /// By how many mm they miss in the first model on the axes of the reason, in its direction, on average.
    pub(super) miss_before: f64,
    /// The same in the target.
    pub(super) miss_after: f64,
    /// Standard error of the difference of both, head by head.
    pub(super) error: f64,
}

/// One model on every head.
struct Tried<'c> {
    sizes: Vec<Fitted<'c>>,
    /// By head: the size that was picked, why it failed, and whether the head lies within the labels.
    outcomes: Vec<(usize, Option<Reason>, bool)>,
}

struct Fitted<'c> {
    candidate: Candidate<'c>,
    cavity: [f64; 3],
}

impl<'c> Sample<'c> {
    /// Tries every model of a catalogue. `None` where the shop's population is unknown.
    pub(super) fn of(catalogue: &'c Catalogue) -> Option<Self> {
        let population = catalogue.population(catalogue.shop.population.as_str())?;
        let drawn = Particles::draw(&Posterior::new(population, &[], None), HEADS, 1, 0);
        let heads: Vec<_> = (0..drawn.len()).map(|head| drawn.head(head)).collect();
        let outline = catalogue.shop.fit.outline;
        let heads: Vec<_> = heads.iter().map(|head| (head.circumference, outline.effective(*head))).collect();
        let models = catalogue.models().iter().map(|model| (&model.id, Tried::of(model, catalogue, &heads))).collect();
        Some(Self { heads: heads.into_iter().map(|(_, head)| head).collect(), models })
    }

    /// Follows a rule. `None` for one whose reason is not a geometric one. (A stop has something of "loose all round",
    /// but a strap that can't hold has other causes, too.)
    pub(super) fn follow(&self, edge: &Edge) -> Option<Led> {
        let (from, to) = (self.models.get(&edge.from)?, self.models.get(&edge.to)?);
        let reason = Some(edge.reason).filter(|reason| reason.nature() == Nature::Geometric)?;
        let direction = reason.direction()?;
        let mut fit = 0;
        let mut misses = Vec::new();
        for (head, (size, outcome, _)) in self.heads.iter().zip(&from.outcomes) {
            if *outcome != Some(reason) {
                continue;
            }
            let allowed = to.allowed(edge, &from.sizes[*size].candidate);
            fit += usize::from(allowed.iter().any(|size| size.reason(*head).is_none()));
            let after = allowed.iter().map(|size| size.miss(*head, direction)).min_by(f64::total_cmp);
            misses.extend(after.map(|after| [from.sizes[*size].miss(*head, direction), after]));
        }
        let [miss_before, miss_after] = [0, 1].map(|at| mean(misses.iter().map(|pair| pair[at])));
        let spread = mean(misses.iter().map(|[before, after]| (after - before - miss_after + miss_before).powi(2)));
        Some(Led { heads: misses.len(), fit, miss_before, miss_after, error: (spread / count(misses.len())).sqrt() })
    }

    /// Share of the heads within a model's labels for which it fails so.
    pub(super) fn share_of_failures(&self, model: &Id, reason: Reason) -> f64 {
        let Some(tried) = self.models.get(model) else { return 0.0 };
        let covered = || tried.outcomes.iter().filter(|(_, _, is_covered)| *is_covered);
        count(covered().filter(|(_, outcome, _)| *outcome == Some(reason)).count()) / count(covered().count().max(1))
    }

    /// The model that most of the heads fit for which another one fails so, and their share. `None` where it fails
    /// for none.
    pub(super) fn best_after(&self, model: &Id, reason: Reason) -> Option<(&'c Id, f64)> {
        let failed = self.models.get(model)?.outcomes.iter().map(|(_, outcome, _)| *outcome == Some(reason));
        let failed: Vec<_> = failed.enumerate().filter(|(_, failed)| *failed).map(|(head, _)| head).collect();
        let share = |tried: &Tried<'_>| {
            mean(failed.iter().map(|head| if tried.outcomes[*head].1.is_none() { 1.0 } else { 0.0 }))
        };
        let others = self.models.iter().filter(|(id, _)| **id != model).map(|(id, tried)| (*id, share(tried)));
        // Of equal ones the first id, so that the order of models changes nothing.
        let best = others.rev().max_by(|a, b| a.1.total_cmp(&b.1))?;
        (!failed.is_empty()).then_some(best)
    }

    /// Share of all heads that fit a model.
    pub(super) fn share_of_fits(&self, model: &Id) -> f64 {
        let Some(tried) = self.models.get(model) else { return 0.0 };
        mean(tried.outcomes.iter().map(|(_, outcome, _)| if outcome.is_none() { 1.0 } else { 0.0 }))
    }
}

impl<'c> Tried<'c> {
    fn of(model: &'c Model, catalogue: &'c Catalogue, heads: &[(f64, EffectiveHead)]) -> Self {
        let fitted = |candidate: Candidate<'c>| Fitted { cavity: candidate.cavity(&catalogue.shop.fit), candidate };
        let sizes: Vec<_> = Candidate::of_models([model], catalogue).into_iter().map(fitted).collect();
        let half_step = catalogue.shop.checking.label_step / 2.0;
        let outcome = |(circumference, head): &(f64, EffectiveHead)| {
            let off = |at: &usize| (sizes[*at].candidate.size.centre() - circumference).abs();
            let picked = (0..sizes.len()).min_by(|a, b| off(a).total_cmp(&off(b))).unwrap_or(0);
            let (from, to) = sizes[picked].candidate.size.circumference;
            let is_covered = (from - half_step..=to + half_step).contains(circumference);
            (picked, sizes[picked].reason(*head), is_covered)
        };
        Self { outcomes: heads.iter().map(outcome).collect(), sizes }
    }

    fn allowed(&self, edge: &Edge, failed: &Candidate<'_>) -> Vec<&Fitted<'c>> {
        let is_allowed = |of: &Candidate<'_>| allows_size(edge, failed.size, of.model, of.size);
        self.sizes.iter().filter(|fitted| is_allowed(&fitted.candidate)).collect()
    }
}

impl Fitted<'_> {
    fn reason(&self, head: EffectiveHead) -> Option<Reason> {
        self.candidate.reason(self.cavity, head)
    }

    /// How far off in a direction, added up over the axes; what is off the other way doesn't count.
    fn miss(&self, head: EffectiveHead, direction: [i8; 3]) -> f64 {
        let misses = self.candidate.miss(self.cavity, head);
        misses.iter().zip(direction).map(|(miss, sign)| (miss * f64::from(sign)).max(0.0)).sum()
    }
}

/// Of nothing, 0.
fn mean(values: impl Iterator<Item = f64>) -> f64 {
    let (number, total) = values.fold((0, 0.0), |(number, total), value| (number + 1, total + value));
    total / count(number.max(1))
}

fn count(number: usize) -> f64 {
    u32::try_from(number).map_or(f64::INFINITY, f64::from)
}
