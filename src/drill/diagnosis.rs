//! What somebody should practise.

use super::{Done, Habit};
use crate::profile::PracticeRules;
use itertools::Itertools;
use statrs::function::beta::beta_reg;

/// How somebody does where they could slip into a habit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Standing {
    /// The habit.
    pub habit: Habit,
    /// Choices where it could be slipped into.
    pub choices: usize,
    /// Slips among them.
    pub slips: usize,
    /// The share of slips as it is known: what was seen, together with what is usual.
    pub share: f64,
    /// Probability that the share is as high as that of somebody who should practise it.
    pub probability: f64,
    /// Minutes that the slips cost.
    pub minutes: f64,
}

/// How somebody does, habit by habit: those that should be practised first, what can hurt somebody before all else, then
/// the most certain. Only habits that could be slipped into.
#[must_use]
pub fn standings(done: &[Done], rules: &PracticeRules) -> Vec<Standing> {
    let marks = || done.iter().flat_map(|done| &done.marks);
    let standing = |habit| {
        let own =
            marks().flat_map(|mark| mark.signs.iter().filter(|sign| sign.habit == habit).map(move |sign| (mark, sign)));
        let own = own.collect_vec();
        let slips = own.iter().filter(|(_, sign)| sign.slipped);
        let minutes = slips.clone().map(|(mark, _)| mark.more_minutes()).sum();
        let (choices, slips) = (own.len(), slips.count());
        let (share, probability) = weighed(rules, slips, choices);
        Standing { habit, choices, slips, share, probability, minutes }
    };
    let met = Habit::ALL.into_iter().map(standing).filter(|standing| standing.choices > 0);
    met.sorted_by(|a, b| {
        let first = |standing: &Standing| standing.slips > 0 && standing.habit.is_unsafe();
        first(b).cmp(&first(a)).then(b.probability.total_cmp(&a.probability)).then(b.minutes.total_cmp(&a.minutes))
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
