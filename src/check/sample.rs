//! Heads of the shop's population in every model: what the rules about geometry count on.

use crate::catalogue::Catalogue;
use crate::fallback::allows_size;
use crate::fit::{Candidate, Reach};
use crate::head::{EffectiveHead, Particles, Posterior};
use crate::profile::{Edge, Model, Nature, Reason, Size};
use crate::unit::Id;
use std::collections::BTreeMap;

/// How many heads stand for the population: a share of 10 % comes out right to about half a point.
pub(super) const HEADS: usize = 4096;

/// With fewer heads than these nothing is said about a model.
const FEW: usize = 100;

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
    /// How many of them fit the target in the size, of those that the rule allows, that is least off.
    pub(super) fit: usize,
    /// By how many mm they miss in the first model on the axes of the reason, in its direction, on average.
    pub(super) miss_before: f64,
    /// The same in that size of the target.
    pub(super) miss_after: f64,
    /// Standard error of the difference of both, head by head.
    pub(super) error: f64,
}

/// One model on every head.
struct Tried<'c> {
    model: &'c Model,
    sizes: Vec<Fitted<'c>>,
    /// By head: the size that a tape picks.
    picked: Vec<u8>,
    /// Whether the head fits it.
    fits: Vec<bool>,
    /// The heads that fail for each reason, and how many of them lie within the labels.
    failed: BTreeMap<Reason, (Vec<usize>, usize)>,
    /// How many heads lie within the labels.
    covered: usize,
}

/// One size, and what becomes of heads in it.
struct Fitted<'c> {
    size: &'c Size,
    reach: Reach,
}

impl<'c> Sample<'c> {
    /// Tries every model of a catalogue. `None` where the shop's population is unknown.
    pub(super) fn of(catalogue: &'c Catalogue) -> Option<Self> {
        let population = catalogue.population(catalogue.shop.population.as_str())?;
        let drawn = Particles::draw(&Posterior::new(population, &[], None), HEADS, 1, 0);
        let mut heads: Vec<_> = (0..drawn.len()).map(|head| drawn.head(head)).collect();
        heads.sort_by(|a, b| a.circumference.total_cmp(&b.circumference));
        let outline = catalogue.shop.fit.outline;
        let heads: Vec<_> = heads.iter().map(|head| (head.circumference, outline.effective(*head))).collect();
        let models = catalogue.models().iter().map(|model| (&model.id, Tried::of(model, catalogue, &heads))).collect();
        Some(Self { heads: heads.into_iter().map(|(_, head)| head).collect(), models })
    }

    /// Follows a rule. `None` for one whose reason is not a geometric one. (A stop has something of "loose all round",
    /// but a strap that can't hold has other causes, too.)
    pub(super) fn follow(&self, edge: &Edge) -> Option<Led> {
        let (from, to) = (self.models.get(&edge.from)?, self.models.get(&edge.to)?);
        let direction = Some(edge.reason).filter(|reason| reason.nature() == Nature::Geometric)?.direction()?;
        let allowed: Vec<_> = from.sizes.iter().map(|failed| to.allowed(edge, failed.size)).collect();
        let mut fit = 0;
        let mut misses = Vec::new();
        for at in from.failed(edge.reason) {
            let (head, size) = (self.heads[*at], usize::from(from.picked[*at]));
            if let Some(after) = least(to.near(usize::from(to.picked[*at]), &allowed[size]), head) {
                fit += usize::from(total(after) <= 0.0);
                misses.push([from.sizes[size].reach.misses(head), after].map(|misses| along(misses, direction)));
            }
        }
        let [miss_before, miss_after] = [0, 1].map(|at| mean(misses.iter().map(|pair| pair[at])));
        let spread = mean(misses.iter().map(|[before, after]| (after - before - miss_after + miss_before).powi(2)));
        Some(Led { heads: misses.len(), fit, miss_before, miss_after, error: (spread / count(misses.len())).sqrt() })
    }

    /// The model that most of the heads fit for which another one fails so, and their share; one of the same type unless
    /// another fits twice as many. `None` where hardly any of them fits anything.
    pub(super) fn best_after(&self, model: &Id, reason: Reason) -> Option<(&'c Id, f64)> {
        let from = self.models.get(model)?;
        let failed = from.failed(reason);
        let fits = |tried: &Tried<'_>| failed.iter().filter(|head| tried.fits[**head]).count();
        let weight = |tried: &Tried<'_>| fits(tried) * if tried.model.kind == from.model.kind { 2 } else { 1 };
        // Of equal ones the first id, so that the order of models changes nothing.
        let others = self.models.iter().filter(|(id, _)| **id != model).rev();
        let (best, tried) = others.max_by_key(|(_, tried)| weight(tried))?;
        let share = count(fits(tried)) / count(failed.len().max(1));
        (share > 0.1).then_some((*best, share))
    }

    /// Share of the heads within a model's labels for which it fails so; 0 where these are too few to say.
    pub(super) fn share_of_failures(&self, model: &Id, reason: Reason) -> f64 {
        let Some(tried) = self.models.get(model).filter(|tried| tried.covered >= FEW) else { return 0.0 };
        let failed = tried.failed.get(&reason).map_or(0, |(_, covered)| *covered);
        count(failed) / count(tried.covered)
    }

    /// Share of all heads that fit a model.
    pub(super) fn share_of_fits(&self, model: &Id) -> f64 {
        let Some(tried) = self.models.get(model) else { return 0.0 };
        count(tried.fits.iter().filter(|fits| **fits).count()) / count(tried.fits.len())
    }
}

impl<'c> Tried<'c> {
    fn of(model: &'c Model, catalogue: &'c Catalogue, heads: &[(f64, EffectiveHead)]) -> Self {
        let sizes: Vec<_> =
            Candidate::of_models([model], catalogue).iter().map(|of| Fitted::of(of, catalogue)).collect();
        let half_step = catalogue.shop.checking.label_step / 2.0;
        let mut tried =
            Self { model, sizes, picked: Vec::new(), fits: Vec::new(), failed: BTreeMap::new(), covered: 0 };
        let mut ladder = Ladder::of(tried.sizes.iter().map(|fitted| fitted.size.centre()));
        for (at, (circumference, head)) in heads.iter().enumerate() {
            let picked = ladder.pick(*circumference);
            let size = &tried.sizes[usize::from(picked)];
            let (from, to) = size.size.circumference;
            let is_covered = (from - half_step..=to + half_step).contains(circumference);
            let reason = size.reach.reason(*head);
            tried.picked.push(picked);
            tried.fits.push(reason.is_none());
            tried.covered += usize::from(is_covered);
            if let Some(reason) = reason {
                let (failed, covered) = tried.failed.entry(reason).or_default();
                failed.push(at);
                *covered += usize::from(is_covered);
            }
        }
        tried
    }

    fn failed(&self, reason: Reason) -> &[usize] {
        self.failed.get(&reason).map_or(&[], |(heads, _)| heads)
    }

    /// Which sizes a rule allows after one that failed.
    fn allowed(&self, edge: &Edge, failed: &Size) -> Vec<bool> {
        self.sizes.iter().map(|fitted| allows_size(edge, failed, self.model, fitted.size)).collect()
    }

    /// The sizes that a fitter would think of: where the rule leaves a choice, the one that a tape picks and its
    /// neighbours; else the one that the rule says.
    fn near(&self, picked: usize, allowed: &[bool]) -> impl Iterator<Item = &Fitted<'c>> {
        let has_choice = allowed.iter().filter(|allowed| **allowed).count() > 1;
        let is_near = move |at: usize| !has_choice || at.abs_diff(picked) <= 1;
        self.sizes
            .iter()
            .zip(allowed)
            .enumerate()
            .filter(move |(at, (_, allowed))| **allowed && is_near(*at))
            .map(|(_, (fitted, _))| fitted)
    }
}

/// Which size a tape picks, for tapes that only get longer: no size behind is looked at again.
struct Ladder {
    /// The middles of the sizes, ascending, with their places; a model has fewer than 256.
    middles: Vec<(f64, u8)>,
    at: usize,
}

impl Ladder {
    /// Of the middles of a model's sizes, in the order of the sizes.
    fn of(middles: impl Iterator<Item = f64>) -> Self {
        let mut middles: Vec<_> = middles.zip(0..).collect();
        middles.sort_by(|a, b| a.0.total_cmp(&b.0));
        // Of two sizes with one label the first; a second one would end the walk.
        middles.dedup_by(|a, b| a.0.total_cmp(&b.0).is_eq());
        Self { middles, at: 0 }
    }

    /// The size whose middle is nearest, the smaller one of two.
    fn pick(&mut self, circumference: f64) -> u8 {
        let off = |at: usize| self.middles.get(at).map_or(f64::INFINITY, |(middle, _)| (middle - circumference).abs());
        while off(self.at + 1) < off(self.at) {
            self.at += 1;
        }
        self.middles.get(self.at).map_or(0, |(_, place)| *place)
    }
}

impl<'c> Fitted<'c> {
    fn of(candidate: &Candidate<'c>, catalogue: &Catalogue) -> Self {
        Self { size: candidate.size, reach: Reach::of(candidate, &catalogue.shop.fit) }
    }
}

/// What the head misses in the size that is least off.
fn least<'f, 'c: 'f>(sizes: impl Iterator<Item = &'f Fitted<'c>>, head: EffectiveHead) -> Option<[f64; 3]> {
    let mut least: Option<[f64; 3]> = None;
    for misses in sizes.map(|size| size.reach.misses(head)) {
        if least.is_none_or(|known| total(misses) < total(known)) {
            least = Some(misses);
        }
        if total(misses) <= 0.0 {
            break;
        }
    }
    least
}

/// How far off in all, mm.
fn total(misses: [f64; 3]) -> f64 {
    misses.iter().map(|miss| miss.abs()).sum()
}

/// How far off in a direction, added up over the axes, mm; what is off the other way doesn't count.
fn along(misses: [f64; 3], direction: [i8; 3]) -> f64 {
    misses.iter().zip(direction).map(|(miss, sign)| (miss * f64::from(sign)).max(0.0)).sum()
}

/// Of nothing, 0.
fn mean(values: impl Iterator<Item = f64>) -> f64 {
    let (number, total) = values.fold((0, 0.0), |(number, total), value| (number + 1, total + value));
    total / count(number.max(1))
}

fn count(number: usize) -> f64 {
    u32::try_from(number).map_or(f64::INFINITY, f64::from)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tape_picks_the_nearest_size_whatever_their_order() {
        let middles = [580.0, 560.0, 580.0, 540.0];
        let mut ladder = Ladder::of(middles.into_iter());
        let picked = [500.0, 550.0, 551.0, 565.0, 570.1, 700.0].map(|tape| ladder.pick(tape));
        assert_eq!(picked, [3, 3, 1, 1, 0, 0], "of two alike the first, halfway the smaller one");
    }
}
