//! A trainee's own results: one line of JSON for each finished task (JSON Lines), `lidladder.result/1`. No name of a person
//! stands in it.

use super::{Done, Exercise, Habit, Level, Mark, Met, Past, Sign};
use crate::journal::{Day, version};
use itertools::Itertools;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What the first key of every line says.
const SCHEMA: &str = "lidladder.result/1";

/// The highest number that a customer may have, so that others can come after.
pub const MOST_CUSTOMERS: u64 = 1_000_000_000;

/// The most minutes that anything may have cost.
const MOST_MINUTES: f64 = 1e6;

/// What is kept of a finished task.
#[derive(Debug, Clone, PartialEq)]
pub struct Kept {
    /// When.
    pub day: Day,
    /// The number of the customer, from 1.
    pub number: u64,
    /// Seed of the paper.
    pub seed: u64,
    /// What was asked.
    pub exercise: Exercise,
    /// How hard it was.
    pub level: Level,
    /// From 0 to 1.
    pub score: f64,
    /// Minutes that the answers cost more than the best ones.
    pub more_minutes: f64,
    /// Rounds on the head that they cost more.
    pub more_tries: f64,
    /// What they say of habits, in order.
    pub signs: Vec<Sign>,
}

/// Why a line holds no result.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{why}")]
pub struct BadResult {
    /// What is wrong.
    pub why: String,
    /// Where in the line.
    pub place: BadPlace,
}

/// Where a line is wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BadPlace {
    /// At this byte, from 1.
    Column(usize),
    /// At the first key of this name.
    Key(&'static str),
}

impl Kept {
    /// What is kept of a task that was finished on this day.
    #[must_use]
    pub fn of(done: &Done, day: Day, seed: u64) -> Self {
        Self {
            day,
            number: done.number,
            seed,
            exercise: done.exercise,
            level: done.level,
            score: done.score(),
            more_minutes: done.more_minutes(),
            more_tries: done.more_tries(),
            signs: done.marks.iter().flat_map(|mark: &Mark| mark.signs.iter().copied()).collect(),
        }
    }

    /// Its signs with when they were.
    pub fn met(&self) -> impl Iterator<Item = Met> {
        self.signs.iter().map(|sign| Met { day: self.day, number: self.number, sign: *sign })
    }

    /// A line, without the end of line.
    #[must_use]
    pub fn to_line(&self) -> String {
        // Strings and finite numbers always have a form in JSON.
        serde_json::to_string(&Line::of(self)).unwrap_or_default()
    }

    /// What a line holds; `text` comes without the end of line.
    ///
    /// # Errors
    ///
    /// What is wrong with the line.
    pub fn from_line(text: &str) -> Result<Self, BadResult> {
        if let Some(schema) = version(text)
            && schema != SCHEMA
        {
            return Err(bad("schema", format!("it says `{schema}`, not `{SCHEMA}`")));
        }
        let line: Line = serde_json::from_str(text).map_err(|fault| {
            let said = fault.to_string();
            let why = said.rsplit_once(" at line ").map_or(said.as_str(), |(why, _)| why).to_owned();
            BadResult { why, place: BadPlace::Column(fault.column().max(1)) }
        })?;
        line.kept()
    }
}

/// All signs of kept results, in their order.
#[must_use]
pub fn past(kept: &[Kept]) -> Past {
    Past(kept.iter().flat_map(Kept::met).collect())
}

/// The JSON Schema of a line.
#[must_use]
pub fn result_schema() -> serde_json::Value {
    schemars::schema_for!(Line).to_value()
}

/// A finished task of practice.
#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "A result of practice kept by lidladder", extend("$id" = "urn:lidladder:result:1"))]
struct Line {
    /// `lidladder.result/1`.
    #[schemars(extend("const" = SCHEMA))]
    schema: String,
    /// The day, as 2026-03-14.
    day: String,
    /// The number of the customer.
    #[schemars(range(min = 1, max = MOST_CUSTOMERS))]
    customer: u64,
    /// Seed of the customers.
    seed: u64,
    /// session, next, shape, pads or stop.
    exercise: String,
    #[schemars(range(min = 1, max = 3))]
    level: u8,
    /// From 0 to 1; 0 after anything that can hurt somebody.
    #[schemars(range(min = 0, max = 1))]
    score: f64,
    /// Minutes that the answers cost more than the best ones, as expected when they were given.
    #[schemars(range(min = 0, max = MOST_MINUTES))]
    more_minutes: f64,
    /// Rounds on the head that they cost more.
    more_tries: f64,
    /// What the answers say of habits, in order.
    signs: Vec<LineSign>,
}

#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct LineSign {
    habit: String,
    /// Whether it was a slip; otherwise it could have been one.
    slipped: bool,
}

impl Line {
    fn of(kept: &Kept) -> Self {
        Self {
            schema: SCHEMA.to_owned(),
            day: kept.day.to_string(),
            customer: kept.number,
            seed: kept.seed,
            exercise: kept.exercise.id().to_owned(),
            level: kept.level.number(),
            score: rounded(kept.score),
            more_minutes: rounded(kept.more_minutes),
            more_tries: rounded(kept.more_tries),
            signs: kept
                .signs
                .iter()
                .map(|sign| LineSign { habit: sign.habit.id().to_owned(), slipped: sign.slipped })
                .collect(),
        }
    }

    fn kept(self) -> Result<Kept, BadResult> {
        Ok(Kept {
            day: Day::try_from(self.day.as_str()).map_err(|fault| bad("day", fault.to_string()))?,
            number: within("customer", self.customer, 1, MOST_CUSTOMERS)?,
            seed: self.seed,
            exercise: Exercise::from_id(&self.exercise).ok_or_else(|| bad("exercise", "no such exercise is known"))?,
            level: Level::of_number(self.level).ok_or_else(|| bad("level", "it is not from 1 to 3"))?,
            score: within("score", self.score, 0.0, 1.0)?,
            more_minutes: within("more_minutes", self.more_minutes, 0.0, MOST_MINUTES)?,
            more_tries: within("more_tries", self.more_tries, -MOST_MINUTES, MOST_MINUTES)?,
            signs: self.signs.into_iter().map(LineSign::sign).try_collect()?,
        })
    }
}

impl LineSign {
    fn sign(self) -> Result<Sign, BadResult> {
        let habit = Habit::from_id(&self.habit).ok_or_else(|| bad("habit", "no such habit is known"))?;
        Ok(Sign { habit, slipped: self.slipped })
    }
}

fn within<T: PartialOrd + std::fmt::Display>(key: &'static str, value: T, least: T, most: T) -> Result<T, BadResult> {
    if value >= least && value <= most { Ok(value) } else { Err(bad(key, format!("it is not from {least} to {most}"))) }
}

fn bad(key: &'static str, why: impl Into<String>) -> BadResult {
    BadResult { why: why.into(), place: BadPlace::Key(key) }
}

/// No more digits than the figures can stand for.
fn rounded(value: f64) -> f64 {
    (value * 1e4).round() / 1e4 + 0.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    const LINE: &str = r#"{"schema":"lidladder.result/1","day":"2026-03-14","customer":7,"seed":1,"exercise":"next","level":2,"score":0.8625,"more_minutes":2.4,"more_tries":0.2,"signs":[{"habit":"size-up-for-cheeks","slipped":true},{"habit":"helmet-before-pads","slipped":false}]}"#;

    #[test]
    fn a_line_survives_reading_and_writing() {
        let kept = Kept::from_line(LINE).unwrap();
        assert_eq!(kept.to_line(), LINE);
        let met = past(&[kept]).0;
        assert_eq!(met.iter().map(|met| (met.number, met.sign.slipped)).collect_vec(), [(7, true), (7, false)]);
    }

    #[test]
    fn no_start_of_a_line_is_a_line() {
        assert!((0..LINE.len()).all(|end| Kept::from_line(&LINE[..end]).is_err()));
    }

    #[rstest]
    #[case("\"customer\":7", "\"customer\":0", BadPlace::Key("customer"))]
    #[case("\"customer\":7", "\"customer\":18446744073709551615", BadPlace::Key("customer"))]
    #[case("2026-03-14", "14.3.", BadPlace::Key("day"))]
    #[case("result/1", "result/2", BadPlace::Key("schema"))]
    #[case("\"next\"", "\"nose\"", BadPlace::Key("exercise"))]
    #[case("\"level\":2", "\"level\":4", BadPlace::Key("level"))]
    #[case("0.8625", "1.5", BadPlace::Key("score"))]
    #[case("2.4", "-1.0", BadPlace::Key("more_minutes"))]
    #[case("helmet-before-pads", "hat-before-pads", BadPlace::Key("habit"))]
    #[case("\"level\":2", "\"level\":2,\"name\":\"x\"", BadPlace::Column(106))]
    fn what_is_wrong_has_its_place(#[case] good: &str, #[case] wrong: &str, #[case] place: BadPlace) {
        let fault = Kept::from_line(&LINE.replacen(good, wrong, 1)).unwrap_err();
        assert_eq!(fault.place, place, "{fault}");
        assert!(!fault.why.is_empty() && !fault.why.contains("line 1"), "{fault}");
    }
}
