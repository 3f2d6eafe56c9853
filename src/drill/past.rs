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

/// When the like of a slip comes again.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Return {
    /// Which.
    pub habit: Habit,
    /// With this customer at the earliest, on the day of the last time.
    pub number: u64,
    /// On this day at the earliest, if not before.
    pub day: Day,
}

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

    /// The last signs of a habit, at most so many, in order.
    #[must_use]
    pub fn latest(&self, habit: Habit, most: usize) -> Vec<Sign> {
        let own = self.0.iter().map(|met| met.sign).filter(|sign| sign.habit == habit);
        let own: Vec<_> = own.collect();
        own[own.len().saturating_sub(most)..].to_vec()
    }

    /// Whether anything has been seen of a habit.
    #[must_use]
    pub fn has_met(&self, habit: Habit) -> bool {
        self.0.iter().any(|met| met.sign.habit == habit)
    }

    /// When the like of each slip comes again, the soonest first.
    #[must_use]
    pub fn returns(&self, rules: &PracticeRules) -> Vec<Return> {
        let mut returns: Vec<_> = Habit::ALL.into_iter().filter_map(|habit| self.returns_of(habit, rules)).collect();
        returns.sort_by_key(|again| (again.day, again.number));
        returns
    }

    fn returns_of(&self, habit: Habit, rules: &PracticeRules) -> Option<Return> {
        let (last, times) = self.last_of(habit)?;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "bounds of the profile and of the doublings"
        )]
        let [customers, days] =
            [rules.again_after, rules.again_after_days].map(|after| (after * times).ceil().max(1.0) as u32);
        Some(Return { habit, number: last.number.saturating_add(customers.into()), day: last.day.after(days) })
    }

    /// The last time of a habit that was slipped into, and what its interval has grown to since.
    fn last_of(&self, habit: Habit) -> Option<(&Met, f64)> {
        let own = || self.0.iter().filter(|met| met.sign.habit == habit);
        let since = own().rev().take_while(|met| !met.sign.slipped).count();
        let last = own().next_back().filter(|_| own().any(|met| met.sign.slipped))?;
        Some((last, 2.0_f64.powi(i32::try_from(since).unwrap_or(MOST_DOUBLINGS).min(MOST_DOUBLINGS))))
    }

    /// By how many intervals a habit is due; `None` where it isn't.
    fn due_since(&self, habit: Habit, rules: &PracticeRules, day: Day, number: u64) -> Option<(f64, Habit)> {
        let (last, times) = self.last_of(habit)?;
        #[expect(clippy::cast_precision_loss, reason = "a count of customers")]
        let intervals = match last.day.until(day) {
            0 => number.saturating_sub(last.number) as f64 / (rules.again_after * times),
            days => f64::from(days) / (rules.again_after_days * times),
        };
        (intervals >= 1.0).then_some((intervals, habit))
    }
}

#[cfg(test)]
mod tests {
    use super::super::Sign;
    use super::*;
    use itertools::Itertools;

    fn rules() -> PracticeRules {
        PracticeRules {
            slip_from: 1.0,
            weak_from: 0.3,
            sure_from: 0.8,
            usual_slips: 0.1,
            usual_weight: 3.0,
            looks_back: 10.0,
            clear_shape: 0.6,
            again_after: 3.0,
            again_after_days: 1.0,
        }
    }

    fn met(number: u64, habit: Habit, slipped: bool) -> Met {
        Met { day: Day::new(2026, 3, 14).unwrap(), number, sign: Sign { habit, slipped } }
    }

    /// What is told of the next time is when it is due, and not a customer or a day before.
    #[test]
    fn what_returns_is_due_then_and_not_before() {
        let past = Past(vec![
            met(1, Habit::WrongWay, true),
            met(2, Habit::GivesUpEarly, false),
            met(4, Habit::WrongWay, false),
            met(5, Habit::IgnoresStops, true),
        ]);
        let returns = past.returns(&rules());
        let habits = returns.iter().map(|again| again.habit).collect_vec();
        assert_eq!(habits, [Habit::IgnoresStops, Habit::WrongWay], "what was never slipped into doesn't return");
        for again in returns {
            let day = Day::new(2026, 3, 14).unwrap();
            let is_due = |day, number| past.due(&rules(), day, number).contains(&again.habit);
            assert!(is_due(day, again.number) && !is_due(day, again.number - 1), "{again:?}");
            assert!(is_due(again.day, 1), "{again:?}");
            let days = day.until(again.day);
            assert!((1..days).all(|days| !is_due(day.after(days.unsigned_abs()), 1)), "{again:?}");
        }
    }
}
