//! One task for a trainee.

use super::{Exercise, Habit, Level, Person, Situation};
use crate::counter::{Event, Opening};

/// One task for a trainee: a customer, and what is asked.
#[derive(Debug, Clone)]
pub struct Task<'a> {
    /// Its number, from 1.
    pub number: u64,
    /// What is asked.
    pub exercise: Exercise,
    /// How hard it is.
    pub level: Level,
    /// The habit for whose sake it came; `None` for one that came in its turn.
    pub aim: Option<Habit>,
    /// The customer.
    pub person: Person<'a>,
    /// What the counter knows.
    pub opening: Opening,
    /// What has happened before the first answer: a helmet that failed, where pads or the next step are asked for.
    pub before: Vec<Event>,
    /// What is seen, where stops are asked for.
    pub situation: Option<Situation>,
}
