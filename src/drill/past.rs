//! What a trainee has done so far, and what is due to come again.

use super::{Habit, Sign};
use crate::journal::Day;
use crate::profile::PracticeRules;

/// A sign with when it was.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Met {
    /// The day.
    pub day: Day,
    /// The number of the task.
    pub number: u64,
    /// What it said.
    pub sign: Sign,
}

/// Signs in the order in which they came.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Past(pub Vec<Met>);

/// Doublings after which an interval grows no more.
const MOST_DOUBLINGS: i32 = 8;

impl Past {
    /// Habits whose like should come now, the longest due first: so many customers or days after the last time, twice as
    /// many each time that it went well since the last slip.
    #[must_use]
    pub fn due(&self, rules: &PracticeRules, day: Day, number: u64) -> Vec<Habit> {
        let mut due: Vec<_> =
            Habit::ALL.into_iter().filter_map(|habit| self.due_since(habit, rules, day, number)).collect();
        due.sort_by(|a, b| b.0.total_cmp(&a.0));
        due.into_iter().map(|(_, habit)| habit).collect()
    }

    /// Whether anything has been seen of a habit.
    #[must_use]
    pub fn has_met(&self, habit: Habit) -> bool {
        self.0.iter().any(|met| met.sign.habit == habit)
    }

    /// By how many intervals a habit is due; `None` where it isn't.
    fn due_since(&self, habit: Habit, rules: &PracticeRules, day: Day, number: u64) -> Option<(f64, Habit)> {
        let own = || self.0.iter().filter(|met| met.sign.habit == habit);
        let since = own().rev().take_while(|met| !met.sign.slipped).count();
        let last = own().next_back().filter(|_| own().any(|met| met.sign.slipped))?;
        let times = 2.0_f64.powi(i32::try_from(since).unwrap_or(MOST_DOUBLINGS).min(MOST_DOUBLINGS));
        #[expect(clippy::cast_precision_loss, reason = "a count of customers")]
        let intervals = match last.day.until(day) {
            0 => number.saturating_sub(last.number) as f64 / (rules.again_after * times),
            days => f64::from(days) / (rules.again_after_days * times),
        };
        (intervals >= 1.0).then_some((intervals, habit))
    }
}
