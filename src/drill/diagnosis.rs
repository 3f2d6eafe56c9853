//! What somebody should practise.

use super::{Done, Habit, Past};
use crate::profile::PracticeRules;
use itertools::Itertools;
use statrs::function::beta::beta_reg;

/// How somebody does where they could slip into a habit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Standing {
    /// The habit.
    pub habit: Habit,
    /// Choices where it could be slipped into, those of earlier runs that count among them.
    pub choices: usize,
    /// Slips among them.
    pub slips: usize,
    /// The share of slips as it is known: what was seen, together with what is usual.
    pub share: f64,
    /// Probability that the share is as high as that of somebody who should practise it.
    pub probability: f64,
    /// Minutes that the slips of this run cost.
    pub minutes: f64,
}

/// How somebody does, habit by habit: those that should be practised first, what can hurt somebody before what can't, then
/// the most certain. Only habits that could be slipped into. Earlier runs count as far as the shop's file looks back.
#[must_use]
pub fn standings(done: &[Done], earlier: &Past, rules: &PracticeRules) -> Vec<Standing> {
    let marks = || done.iter().flat_map(|done| &done.marks);
    let standing = |habit| {
        let own =
            marks().flat_map(|mark| mark.signs.iter().filter(|sign| sign.habit == habit).map(move |sign| (mark, sign)));
        let own = own.collect_vec();
        let slips = own.iter().filter(|(_, sign)| sign.slipped);
        let minutes = slips.clone().map(|(mark, _)| mark.more_minutes()).sum();
        let before = earlier.latest(habit, looked_back(rules, own.len()));
        let choices = own.len() + before.len();
        let slips = slips.count() + before.iter().filter(|sign| sign.slipped).count();
        let (share, probability) = weighed(rules, slips, choices);
        Standing { habit, choices, slips, share, probability, minutes }
    };
    let met = Habit::ALL.into_iter().map(standing).filter(|standing| standing.choices > 0);
    met.sorted_by(|a, b| {
        let rank = |standing: &Standing| {
            let is_sure = standing.probability >= rules.sure_from;
            (is_sure && standing.habit.is_unsafe(), is_sure, standing.is_weak(rules))
        };
        rank(b).cmp(&rank(a)).then(b.probability.total_cmp(&a.probability)).then(b.minutes.total_cmp(&a.minutes))
    })
    .collect()
}

impl Standing {
    /// Whether it should be practised. What can hurt somebody should after a single slip.
    #[must_use]
    pub fn is_weak(&self, rules: &PracticeRules) -> bool {
        self.slips > 0 && (self.habit.is_unsafe() || self.probability >= rules.sure_from)
    }
}

/// How many choices of earlier runs count beside so many of this one.
fn looked_back(rules: &PracticeRules, own: usize) -> usize {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from 0 to 1000")]
    let all = rules.looks_back.round() as usize;
    all.saturating_sub(own)
}

/// The share of slips and the probability that it is at least `weak_from`: a beta distribution, begun with what is usual
/// (the conjugate prior of a share; Gelman et al., Bayesian Data Analysis, 3rd ed., section 2.1, from memory).
fn weighed(rules: &PracticeRules, slips: usize, choices: usize) -> (f64, f64) {
    #[expect(clippy::cast_precision_loss, reason = "counts of answers")]
    let (slips, others) = (slips as f64, (choices - slips) as f64);
    // A beta distribution needs both parts, however small.
    let usual = rules.usual_slips.clamp(1e-3, 1.0 - 1e-3);
    let (a, b) = (rules.usual_weight * usual + slips, rules.usual_weight * (1.0 - usual) + others);
    let from = rules.weak_from.clamp(0.0, 1.0);
    (a / (a + b), 1.0 - beta_reg(a, b, from))
}

#[cfg(test)]
mod tests {
    use super::super::{Answer, Best, Exercise, Level, Mark, Met, Sign};
    use super::*;
    use crate::catalogue::{Origin, load};
    use crate::diag::Sources;
    use crate::journal::Day;

    fn rules() -> PracticeRules {
        load(&Origin::BuiltIn, &mut Sources::default()).unwrap().shop.practice
    }

    fn sign(slipped: bool) -> Sign {
        Sign { habit: Habit::SizeUpForCheeks, slipped }
    }

    fn done(slips: &[bool]) -> Vec<Done> {
        let mark = |slipped: &bool| Mark {
            answer: Answer::Leave,
            best: Best::Leave,
            helmet: None,
            heard: None,
            weighed: None,
            worth: 1.0,
            signs: vec![sign(*slipped)],
        };
        let marks = slips.iter().map(mark).collect();
        let exercise = Exercise::Next;
        vec![Done { number: 1, exercise, level: Level::First, aim: None, marks, plan_minutes: 10.0, took: None }]
    }

    fn earlier(slips: &[bool]) -> Past {
        let day = Day::new(2026, 3, 14).unwrap();
        Past(slips.iter().map(|slipped| Met { day, number: 1, sign: sign(*slipped) }).collect())
    }

    #[test]
    fn the_share_is_that_of_a_beta_distribution() {
        // Known beforehand 3 choices with 0.3 slips, seen 3 slips of 3: a beta distribution with 3.3 and 2.7, whose upper
        // part is counted here by Simpson's rule over the density.
        let known = standings(&done(&[true, true, true]), &Past::default(), &rules())[0];
        assert!((known.share - 3.3 / 6.0).abs() < 1e-12);
        let density = |x: f64| x.powf(2.3) * (1.0 - x).powf(1.7);
        let area = |from: f64| {
            let step = (1.0 - from) / 20_000.0;
            let weight = |at: i32| {
                if at % 2 == 1 {
                    4.0
                } else if at == 0 || at == 20_000 {
                    1.0
                } else {
                    2.0
                }
            };
            (0..=20_000).map(|at| weight(at) * density((from + f64::from(at) * step).min(1.0))).sum::<f64>() * step
                / 3.0
        };
        assert!((known.probability - area(0.3) / area(0.0)).abs() < 1e-6, "{known:?}");
        assert!(known.is_weak(&rules()) && !standings(&done(&[true]), &Past::default(), &rules())[0].is_weak(&rules()));
    }

    #[test]
    fn earlier_runs_count_as_far_as_the_shop_looks_back() {
        let rules = rules();
        let counted = |now: &[bool], before: &[bool]| {
            let known = standings(&done(now), &earlier(before), &rules)[0];
            (known.slips, known.choices)
        };
        assert_eq!(counted(&[true], &[true, true]), (3, 3));
        assert_eq!(
            counted(&[false; 4], &[[true; 30].as_slice(), &[false; 2]].concat()),
            (4, 10),
            "the last six of them"
        );
        assert_eq!(counted(&[true; 12], &[false; 30]), (12, 12), "a long run speaks for itself");
    }
}
