//! Whose heads are left: what a belief of the judges says about measures and shape.

use super::super::belief::Belief;
use super::super::judge::reasons;
use super::super::problem::Reports;
use crate::fit::{HeadSet, Quote};
use crate::head::{Measure, shape_index};
use crate::profile::{Reason, ShapeWords};
use itertools::Itertools;

/// A mean that moves by a smaller share of the spread than this is no news to anybody.
const NEWS_FROM: f64 = 0.25;

/// A spread below this is that of an exact measure and of rounding, mm or points of the index.
const EXACT_BELOW: f64 = 1e-3;

/// The heads that are left.
#[derive(Debug, Clone, PartialEq)]
pub struct Likely {
    /// Means of C, L, B, W in mm and of the shape index.
    pub mean: [Quote; 5],
    /// Their standard deviations.
    pub sd: [Quote; 5],
    /// Probability of a long, an intermediate and a round oval in the shop's words.
    pub words: [Quote; 3],
    /// How many of the judges' heads effectively count.
    pub effective_heads: f64,
    /// How they differ from the heads before, as far as it is news.
    pub moved: Vec<Moved>,
}

/// How the heads that are left differ from those before.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Moved {
    /// The mean shape index is higher.
    Rounder,
    /// The mean shape index is lower.
    Longer,
    /// The mean circumference is larger.
    Larger,
    /// The mean circumference is smaller.
    Smaller,
    /// The mean face is wider.
    WiderFace,
    /// The mean face is narrower.
    NarrowerFace,
}

/// What an outcome of a try tells.
#[derive(Debug, Clone, PartialEq)]
pub struct Told {
    /// The reasons that are reported; none for a fit.
    pub reasons: Vec<Reason>,
    /// Probability of it when the step is tried.
    pub probability: Quote,
    /// Whose heads are left then; `None` where none of the judges' heads do so.
    pub likely: Option<Likely>,
}

/// The judges' heads.
pub(super) struct Heads<'h> {
    pub(super) sets: &'h [HeadSet],
    pub(super) words: ShapeWords,
}

/// A belief in figures, judge by judge.
pub(super) struct Summary {
    by_judge: Vec<Sums>,
    moved: Vec<Moved>,
}

/// Σ weight × value over the rows of one judge.
#[derive(Default, Clone)]
struct Sums {
    mass: f64,
    value: [f64; 5],
    square: [f64; 5],
    words: [f64; 3],
    weight_square: f64,
}

impl Heads<'_> {
    /// What a belief says, and how it differs from an earlier one; `None` where nobody is left.
    pub(super) fn of(&self, beliefs: &[Belief], before: Option<&Summary>) -> Option<Summary> {
        let by_judge = self.sets.iter().zip(beliefs).map(|(set, belief)| self.sums(set, belief)).collect_vec();
        let mut summary = Summary { by_judge, moved: Vec::new() };
        if summary.total().mass <= 0.0 {
            return None;
        }
        summary.moved = before.map(|before| summary.moved_from(before)).unwrap_or_default();
        Some(summary)
    }

    /// What each outcome of a try tells: a fit, then the reports, the most probable first and those that share a
    /// branch last.
    pub(super) fn told(
        &self,
        before: Option<&Summary>,
        here: &[Belief],
        fitted: &[Belief],
        reports: impl Iterator<Item = (Reports, Vec<Belief>)>,
    ) -> Vec<Told> {
        let tell = |reasons, after: &[Belief]| Told {
            reasons,
            probability: Quote::ratio(after.iter().zip(here).map(|(after, here)| (after.mass, here.mass))),
            likely: self.of(after, before).map(|summary| summary.likely()),
        };
        let heard = reports.map(|(reports, after)| tell(reasons(reports), &after)).sorted_by(|a, b| {
            let is_shared = |told: &Told| told.reasons.len() > 1;
            is_shared(a).cmp(&is_shared(b)).then(b.probability.value.total_cmp(&a.probability.value))
        });
        std::iter::once(tell(Vec::new(), fitted)).chain(heard).collect()
    }

    fn sums(&self, set: &HeadSet, belief: &Belief) -> Sums {
        let mut sums = Sums { mass: belief.mass, ..Sums::default() };
        let columns = Measure::ALL.map(|measure| set.heads.values(measure));
        for (row, weight) in belief.rows.iter().zip(&belief.weight) {
            let row = *row as usize;
            let index = shape_index(set.heads.length[row], set.heads.breadth[row]);
            let [circumference, length, breadth, face_width] = columns.map(|values| values[row]);
            for (k, value) in [circumference, length, breadth, face_width, index].into_iter().enumerate() {
                sums.value[k] += weight * value;
                sums.square[k] += weight * value * value;
            }
            sums.words[self.words.place(index)] += weight;
            sums.weight_square += weight * weight;
        }
        sums
    }
}

impl Summary {
    /// The figures with their errors.
    pub(super) fn likely(&self) -> Likely {
        let total = self.total();
        Likely {
            mean: [0, 1, 2, 3, 4].map(|k| self.at_least(k, self.mean(|sums| sums.value[k]))),
            sd: [0, 1, 2, 3, 4].map(|k| Quote { value: total.sd(k), ..self.mean(|sums| sums.sd(k) * sums.mass) }),
            words: [0, 1, 2].map(|k| self.mean(|sums| sums.words[k])),
            effective_heads: total.mass * total.mass / total.weight_square,
            moved: self.moved.clone(),
        }
    }

    fn moved_from(&self, before: &Self) -> Vec<Moved> {
        let ways = [
            (4, [Moved::Longer, Moved::Rounder]),
            (0, [Moved::Smaller, Moved::Larger]),
            (3, [Moved::NarrowerFace, Moved::WiderFace]),
        ];
        let spread = before.total();
        let moved = ways.into_iter().filter_map(|(k, [down, up])| {
            let pairs = self.by_judge.iter().zip(&before.by_judge);
            let by = Quote::ratio(pairs.map(|(now, then)| (now.value[k] - now.mass * then.mean(k), now.mass)));
            let by = self.at_least(k, by);
            let is_news = by.value.abs() > by.error && by.value.abs() >= NEWS_FROM * spread.sd(k).max(EXACT_BELOW);
            is_news.then_some(if by.value < 0.0 { down } else { up })
        });
        moved.collect()
    }

    /// A mean whose error is at least that of so many plain draws where some judge has no say: the scatter between the
    /// others would then be too small, and none at all between one.
    fn at_least(&self, k: usize, mean: Quote) -> Quote {
        if self.by_judge.iter().all(|sums| sums.mass > 0.0) {
            return mean;
        }
        let total = self.total();
        let standard_error = total.sd(k) * total.weight_square.sqrt() / total.mass;
        Quote { error: mean.error.max(4.0 * standard_error), ..mean }
    }

    fn mean(&self, sum: impl Fn(&Sums) -> f64) -> Quote {
        Quote::ratio(self.by_judge.iter().map(|sums| (sum(sums), sums.mass)))
    }

    fn total(&self) -> Sums {
        let mut total = Sums::default();
        for sums in &self.by_judge {
            total.mass += sums.mass;
            total.weight_square += sums.weight_square;
            total.value.iter_mut().zip(sums.value).for_each(|(total, value)| *total += value);
            total.square.iter_mut().zip(sums.square).for_each(|(total, square)| *total += square);
        }
        total
    }
}

impl Sums {
    fn mean(&self, k: usize) -> f64 {
        if self.mass > 0.0 { self.value[k] / self.mass } else { 0.0 }
    }

    fn sd(&self, k: usize) -> f64 {
        if self.mass > 0.0 { (self.square[k] / self.mass - self.mean(k).powi(2)).max(0.0).sqrt() } else { 0.0 }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Heads of these weights and circumferences, one list for each judge.
    fn summary(judges: &[&[(f64, f64)]]) -> Summary {
        let sums = |heads: &&[(f64, f64)]| {
            let mut sums = Sums::default();
            for (weight, value) in *heads {
                sums.mass += weight;
                sums.weight_square += weight * weight;
                sums.value[0] += weight * value;
                sums.square[0] += weight * value * value;
            }
            sums
        };
        Summary { by_judge: judges.iter().map(sums).collect(), moved: Vec::new() }
    }

    #[test]
    fn means_and_spreads_are_those_of_all_heads_together() {
        let likely = summary(&[&[(1.0, 560.0), (1.0, 580.0)], &[(2.0, 590.0)]]).likely();
        assert!((likely.mean[0].value - 580.0).abs() < 1e-9);
        // (20² + 0 + 2 · 10²) / 4 = 150
        assert!((likely.sd[0].value - 150.0_f64.sqrt()).abs() < 1e-6);
        // (1 + 1 + 2)² / (1 + 1 + 4)
        assert!((likely.effective_heads - 16.0 / 6.0).abs() < 1e-9);
    }

    #[test]
    fn one_judge_alone_is_not_sure() {
        let one = summary(&[&[(1.0, 570.0), (1.0, 580.0)], &[]]).likely();
        assert!((one.mean[0].error - 4.0 * 5.0 / 2.0_f64.sqrt()).abs() < 1e-6, "{:?}", one.mean[0]);
    }

    #[test]
    fn an_exact_measure_does_not_move() {
        let before = summary(&[&[(1.0, 575.0)], &[(1.0, 575.0)]]);
        assert!(summary(&[&[(0.3, 575.000_001)], &[(0.3, 575.000_001)]]).moved_from(&before).is_empty());
        assert_eq!(summary(&[&[(0.3, 578.0)], &[(0.3, 578.0)]]).moved_from(&before), [Moved::Larger]);
    }
}
