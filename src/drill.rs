//! Practice: customers that the program plays, and what a trainee's choices cost against the best plan.
//!
//! A [`Paper`] makes [`Task`]s, one after the other; a [`Turn`] is a task while it is played: it takes [`Answer`]s, lets
//! the customer say what such a head would say, and leaves [`Done`]. Each choice is weighed as it could be known when it
//! was made: what it costs more than the plan's, if the best is done from there on. Luck is no merit, and no fault.
//! [`standings`] reads from all of it what should be practised. Pure: no file, no terminal, no clock.

mod answer;
mod diagnosis;
mod exercise;
mod habit;
mod lesson;
mod level;
mod look;
mod mark;
mod paper;
mod past;
mod person;
mod results;
mod score;
mod sheet;
mod signs;
mod situation;
mod strata;
mod task;
mod turn;

pub use answer::{Answer, NoAnswer};
pub use diagnosis::{Standing, standings};
pub use exercise::Exercise;
pub use habit::{Habit, Sign};
pub use lesson::{Lesson, lesson};
pub use level::Level;
pub use look::Look;
pub use mark::{Best, Done, Mark, Took};
pub use paper::{Again, Paper, Wanted};
pub use past::{Met, Past, Return};
pub use person::Person;
pub use results::{BadPlace, BadResult, Kept, MOST_CUSTOMERS, past, result_schema};
pub use score::{Scored, Scores, scores};
pub use sheet::Sheet;
pub use situation::{SITUATIONS, Situation};
pub use strata::Spread;
pub use task::Task;
pub use turn::Turn;
