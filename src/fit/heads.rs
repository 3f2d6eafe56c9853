//! Sets of heads that stand for one customer.

use super::{Candidate, Customer, EffectiveHeads, FIT, JUDGES, Outcomes, Quote, Worn, evaluate};
use crate::catalogue::Catalogue;
use crate::head::{Moments, PARTICLES, Particles, Posterior, shape_index};
use crate::profile::{Reason, ShapeWords};
use itertools::Itertools;

/// One set of heads, weighted by everything that is known.
#[derive(Debug, Clone, PartialEq)]
pub struct HeadSet {
    /// The heads and their weights.
    pub heads: Particles,
    /// The room that they take.
    pub effective: EffectiveHeads,
    /// Share of the heads that do with every worn helmet what was reported, before the report weighs them: the least
    /// over the helmets, 1 without any.
    pub agreement: f64,
    /// How many heads effectively count (Kish), also where others were picked out of them.
    pub effective_size: f64,
    scramble: u32,
}

/// The head as inferred.
#[derive(Debug, Clone, PartialEq)]
pub struct Estimate {
    /// Means of C, L, B, W in mm and of the shape index.
    pub mean: [Quote; 5],
    /// Their standard deviations.
    pub sd: [Quote; 5],
    /// Probability of a long, an intermediate and a round oval in the shop's words.
    pub words: [Quote; 3],
    /// Share of heads that are less unusual than the readings.
    pub rarity: f64,
    /// Heads of a set that effectively count; few when the evidence is surprising.
    pub effective_heads: f64,
    /// Share of the heads that do with every worn helmet what was reported; 1 without any.
    pub agreement: f64,
}

impl HeadSet {
    /// Draws `count` heads of scramble number `scramble`, and weighs them by the helmets that the customer wears or tried.
    /// Where hardly any of them goes with what was heard, they are picked out of up to sixteen times as many.
    #[must_use]
    pub fn draw(catalogue: &Catalogue, customer: &Customer<'_>, count: usize, scramble: u32) -> Self {
        let mut drawn = count;
        let mut set = Self::draw_all(catalogue, customer, drawn, scramble);
        while set.effective_size < ENOUGH && drawn < MOST_DRAWN.min(16 * count) {
            drawn *= 4;
            set = Self::draw_all(catalogue, customer, drawn, scramble);
        }
        if drawn > count { set.picked(count) } else { set }
    }

    /// The set that chooses for a customer.
    #[must_use]
    pub fn chooser(catalogue: &Catalogue, customer: &Customer<'_>) -> Self {
        Self::draw(catalogue, customer, PARTICLES, 0)
    }

    /// The fresh sets that judge what was chosen for a customer.
    #[must_use]
    pub fn judges(catalogue: &Catalogue, customer: &Customer<'_>) -> Vec<Self> {
        (1..=JUDGES).map(|scramble| Self::draw(catalogue, customer, customer.judged_heads(), scramble)).collect()
    }

    fn draw_all(catalogue: &Catalogue, customer: &Customer<'_>, count: usize, scramble: u32) -> Self {
        let mut heads = Particles::draw(&customer.head, count, customer.seed, scramble);
        let effective = EffectiveHeads::of(&heads, catalogue.shop.fit.outline);
        let mut set = Self { heads: Particles::default(), effective, agreement: 1.0, effective_size: 0.0, scramble };
        for worn in &customer.worn {
            let agrees = set.agrees(catalogue, customer, worn);
            let share = heads.weight.iter().zip(&agrees).filter(|(_, agrees)| **agrees).map(|(weight, _)| weight).sum();
            set.agreement = set.agreement.min(share);
            heads.reweight_by(&likelihood(catalogue.shop.misreport, &agrees));
        }
        set.effective_size = heads.effective_size();
        set.heads = heads;
        set
    }

    /// So many of the heads, each as often as its weight wants (systematic resampling; Kitagawa 1996), all with the same
    /// weight.
    fn picked(&self, count: usize) -> Self {
        let places = systematic(&self.heads.weight, count);
        Self { heads: self.heads.at(&places), effective: self.effective.at(&places), ..*self }
    }

    /// Tries candidates (of one model side by side) on every head, each with its own profile errors.
    #[must_use]
    pub fn try_all(&self, catalogue: &Catalogue, customer: &Customer<'_>, candidates: &[&Candidate<'_>]) -> Outcomes {
        let shop = &catalogue.shop;
        evaluate(candidates, &self.effective, &shop.fit, &shop.minutes, (customer.seed, self.scramble))
    }

    /// The first `count` heads: of a low-discrepancy sequence, the first power of two is one, too.
    #[must_use]
    pub fn first(&self, count: usize) -> Self {
        let heads = self.heads.first(count);
        Self { effective_size: heads.effective_size(), heads, effective: self.effective.first(count), ..*self }
    }

    /// Which heads do with a worn helmet what was reported; all of them where geometry is silent about it.
    fn agrees(&self, catalogue: &Catalogue, customer: &Customer<'_>, worn: &Worn<'_>) -> Vec<bool> {
        let tried = Candidate::of_size(worn.model, &worn.size, catalogue).map(|candidate| {
            let pads = worn.pads.unwrap_or(candidate.size.standard);
            candidate.mounted(&pads, &catalogue.shop.fit, 0.0)
        });
        let outcomes = self.try_all(catalogue, customer, &tried.iter().collect_vec());
        let reported = reported(worn.reason);
        let agrees = |truth: &u8| reported.is_none_or(|reported| *truth == reported);
        outcomes.reason.iter().flatten().map(agrees).collect()
    }
}

/// Heads that effectively count: with fewer, figures are rough.
const ENOUGH: f64 = 256.0;

/// The longest set that a sequence gives.
const MOST_DRAWN: usize = 16 * PARTICLES;

/// Places in proportion to their weights, which add up to 1: those that the middles of `count` equal steps fall to.
fn systematic(weight: &[f64], count: usize) -> Vec<u32> {
    let mut places = Vec::with_capacity(count);
    let mut reached = 0.0;
    for (place, weight) in (0..).zip(weight) {
        reached += weight;
        #[expect(clippy::cast_precision_loss, reason = "at most 65536")]
        while places.len() < count && (places.len() as f64 + 0.5) / (count as f64) < reached {
            places.push(place);
        }
    }
    // The weights may add up to a little less than 1.
    let last = places.last().copied().unwrap_or(0);
    places.resize(count, last);
    places
}

/// How probable a report is for each head.
fn likelihood(misreport: f64, agrees: &[bool]) -> Vec<f64> {
    agrees.iter().map(|agrees| report_chance(*agrees, misreport)).collect()
}

/// How probable a report is for a head that does, or doesn't do, what was reported. Any report may be a wrong one, so none
/// has probability 0.
pub(crate) fn report_chance(agrees: bool, misreport: f64) -> f64 {
    let others = u32::try_from(Reason::GEOMETRIC).map_or(1.0, f64::from);
    if agrees { 1.0 - misreport } else { misreport / others }
}

impl Estimate {
    /// The figures without their errors.
    #[must_use]
    pub fn moments(&self) -> Moments {
        Moments { mean: self.mean.map(|quote| quote.value), sd: self.sd.map(|quote| quote.value) }
    }
}

/// Sums up sets that stand for the same customer.
#[must_use]
pub fn estimate(catalogue: &Catalogue, head: &Posterior, sets: &[HeadSet]) -> Estimate {
    let moments = sets.iter().map(|set| set.heads.moments()).collect_vec();
    let words = sets.iter().map(|set| words(catalogue.shop.words, &set.heads)).collect_vec();
    #[expect(clippy::cast_precision_loss, reason = "a handful")]
    let count = sets.len() as f64;
    Estimate {
        mean: [0, 1, 2, 3, 4].map(|k| Quote::of(moments.iter().map(|m| m.mean[k]))),
        sd: [0, 1, 2, 3, 4].map(|k| Quote::of(moments.iter().map(|m| m.sd[k]))),
        words: [0, 1, 2].map(|k| Quote::of(words.iter().map(|w| w[k]))),
        rarity: head.rarity(),
        effective_heads: sets.iter().map(|set| set.effective_size).sum::<f64>() / count,
        agreement: sets.iter().map(|set| set.agreement).sum::<f64>() / count,
    }
}

fn words(words: ShapeWords, heads: &Particles) -> [f64; 3] {
    let mut shares = [0.0; 3];
    for (at, weight) in heads.weight.iter().enumerate() {
        let index = shape_index(heads.length[at], heads.breadth[at]);
        shares[words.place(index)] += weight;
    }
    shares
}

/// The number of an outcome as a person reports it; `None` where geometry is silent about it. A stop is "loose all round".
pub(crate) fn reported(reason: Option<Reason>) -> Option<u8> {
    let Some(reason) = reason else { return Some(FIT) };
    let geometric = reason.direction().and_then(Reason::from_direction)?;
    let place = Reason::geometric().iter().position(|known| *known == geometric)?;
    u8::try_from(place + 1).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn heads_are_picked_as_often_as_their_weight_wants() {
        assert_eq!(systematic(&[0.5, 0.0, 0.25, 0.25], 8), [0, 0, 0, 0, 2, 2, 3, 3]);
        assert_eq!(systematic(&[0.1; 9], 4), [1, 3, 6, 8], "what is missing goes to the last");
    }
}
