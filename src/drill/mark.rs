//! What came of an answer, and of a task.

use super::{Answer, Exercise, Habit, Level, Sign};
use crate::counter::OnHead;
use crate::fit::Quote;
use crate::plan::Weighed;
use crate::profile::Reason;

/// What came of one answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// The answer.
    pub answer: Answer,
    /// What would have been best.
    pub best: Best,
    /// The helmet that went on the head, if one did.
    pub helmet: Option<OnHead>,
    /// What was heard of it; `None` for a good fit, and where nothing went on the head.
    pub heard: Option<Reason>,
    /// What the answer costs against the best; `None` where no minutes hang on it, and where it wasn't let happen.
    pub weighed: Option<Weighed>,
    /// From 0 to 1: what a shape or a stop is worth; 0 for what can hurt somebody.
    pub worth: f64,
    /// What it says of habits.
    pub signs: Vec<Sign>,
}

/// What would have been best.
#[derive(Debug, Clone, PartialEq)]
pub enum Best {
    /// To put this on the head, with the probability that it fits: a helmet with the pads on offer, pads as they are.
    Try(OnHead, Quote),
    /// No pads: another helmet, this one, with the probability that it fits.
    Another(OnHead, Quote),
    /// To let the customer go.
    Leave,
    /// This shape, with its probability.
    Shape(usize, Quote),
    /// To call it a stop, or not.
    Stop(bool),
}

impl Mark {
    /// The habit that the answer slipped into.
    #[must_use]
    pub fn slip(&self) -> Option<Habit> {
        self.signs.iter().find(|sign| sign.slipped).map(|sign| sign.habit)
    }

    /// Minutes that it costs more than the best one; 0 where the judges find it better.
    #[must_use]
    pub fn more_minutes(&self) -> f64 {
        self.weighed.map_or(0.0, |weighed| weighed.more_minutes.value.max(0.0))
    }

    /// Rounds on the head that it costs more; 0 where it costs no minutes.
    #[must_use]
    pub fn more_tries(&self) -> f64 {
        let costs = self.weighed.filter(|weighed| weighed.more_minutes.value > 0.0);
        costs.map_or(0.0, |weighed| weighed.more_tries.value)
    }
}

/// What came of a task.
#[derive(Debug, Clone, PartialEq)]
pub struct Done {
    /// Its number.
    pub number: u64,
    /// What was asked.
    pub exercise: Exercise,
    /// How hard it was.
    pub level: Level,
    /// The habit for whose sake it came.
    pub aim: Option<Habit>,
    /// The answers, in order.
    pub marks: Vec<Mark>,
    /// What the best plan was expected to cost when it began, minutes with going without counted; 0 where no minutes hang
    /// on it.
    pub plan_minutes: f64,
    /// What it took, where helmets went on the head.
    pub took: Option<Took>,
}

/// What a session took.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Took {
    /// Helmets on the head.
    pub helmets: usize,
    /// Minutes in the shop's reckoning.
    pub minutes: f64,
    /// Whether it ended with a fit.
    pub fits: bool,
}

impl Done {
    /// Minutes that the answers cost more than the best ones, as expected when they were given.
    #[must_use]
    pub fn more_minutes(&self) -> f64 {
        self.marks.iter().map(Mark::more_minutes).sum()
    }

    /// Rounds on the head that they cost more.
    #[must_use]
    pub fn more_tries(&self) -> f64 {
        self.marks.iter().map(Mark::more_tries).sum()
    }

    /// From 0 to 1: the minutes that the best plan costs, as a share of those that these answers cost; what the answer is
    /// worth where no minutes hang on it; 0 after anything that can hurt somebody.
    #[must_use]
    pub fn score(&self) -> f64 {
        let worth = self.marks.iter().map(|mark| mark.worth).fold(1.0, f64::min);
        let costs = self.plan_minutes + self.more_minutes();
        if self.plan_minutes > 0.0 { worth * self.plan_minutes / costs } else { worth }
    }

    /// The answer that cost most, where one was no good.
    #[must_use]
    pub fn worst(&self) -> Option<&Mark> {
        let loss = |mark: &Mark| (1.0 - mark.worth) * 1e6 + mark.more_minutes();
        self.marks.iter().filter(|mark| loss(mark) > 0.0).max_by(|a, b| loss(a).total_cmp(&loss(b)))
    }
}
