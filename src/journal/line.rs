//! A record as one line of JSON (JSON Lines), `lidladder.try/1`.

use super::parts::{LinePads, LineRead, LineShape, LineWears, bad, minutes, name, probability, reason};
use super::record::{Head, Record, Round};
use super::{BadDay, Day};
use itertools::Itertools;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What the first key of every line says.
pub const SCHEMA: &str = "lidladder.try/1";

/// The most bytes that a line may have: twenty times those of a long session's try.
pub const LONGEST_LINE: usize = 64 * 1024;

/// Why a line is no record.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum BadLine {
    /// More than [`LONGEST_LINE`] bytes.
    #[error("longer than {LONGEST_LINE} bytes")]
    TooLong,
    /// Cut off before its end, as by a power cut.
    #[error("cut off before its end")]
    CutOff,
    /// No JSON object with the keys of a record: what the reader said.
    #[error("{0}")]
    NoRecord(String),
    /// Of a version that this program doesn't know.
    #[error("says `{0}`, not `{SCHEMA}`")]
    Version(String),
    /// A key holds what it can't.
    #[error("`{key}` {why}")]
    Value {
        /// The key, as a path.
        key: String,
        /// What is wrong with it.
        why: String,
    },
}

/// A line, without the end of line.
#[must_use]
pub fn to_line(record: &Record) -> String {
    // Strings and finite numbers always have a form in JSON.
    serde_json::to_string(&Line::of(record)).unwrap_or_default()
}

/// The record that a line holds; `text` comes without the end of line.
///
/// # Errors
///
/// What is wrong with the line.
pub fn from_line(text: &str) -> Result<Record, BadLine> {
    if text.len() > LONGEST_LINE {
        return Err(BadLine::TooLong);
    }
    if let Some(schema) = version(text)
        && schema != SCHEMA
    {
        return Err(BadLine::Version(schema));
    }
    let line: Line = serde_json::from_str(text)
        .map_err(|fault| if fault.is_eof() { BadLine::CutOff } else { BadLine::NoRecord(fault.to_string()) })?;
    line.record()
}

/// The schema that a line of JSON says it follows, whatever its version; `None` where it says none.
pub(crate) fn version(line: &str) -> Option<String> {
    #[derive(Deserialize)]
    struct Version {
        schema: String,
    }
    serde_json::from_str(line).ok().map(|Version { schema }| schema)
}

/// The JSON Schema of a line.
#[must_use]
pub fn line_schema() -> serde_json::Value {
    schemars::schema_for!(Line).to_value()
}

/// One try: a helmet on a customer's head, with every set of pads that was in it meanwhile.
#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Line {
    /// `lidladder.try/1`.
    #[schemars(extend("const" = SCHEMA))]
    schema: String,
    /// The day, as 2026-03-14.
    day: String,
    /// A number that means nothing outside this file.
    #[schemars(range(min = 1))]
    customer: u64,
    /// Which try of this customer; customer and try together name the line.
    #[serde(rename = "try")]
    #[schemars(range(min = 1))]
    number: u32,
    /// Whose heads the shop expected.
    population: String,
    /// What was measured; a measure may have been taken more than once.
    readings: Vec<LineRead>,
    /// The shape as judged by eye.
    shape: Option<LineShape>,
    /// Helmets that the customer came in with.
    wears: Vec<LineWears>,
    /// Id of the model.
    model: String,
    /// Label of the size.
    size: String,
    /// How probable a good fit with the pads on offer was said to be before the try.
    #[schemars(range(min = 0, max = 1))]
    fit_probability: Option<f64>,
    /// One pad set after the other.
    #[schemars(length(min = 1))]
    rounds: Vec<LineRound>,
}

#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct LineRound {
    /// Thickness of the pads by zone; null for a zone without one.
    pads_mm: LinePads,
    /// Why it was no good; null for a good fit.
    reason: Option<String>,
    /// Minutes that the shop's profile counts for it.
    #[schemars(range(min = 0))]
    minutes: f64,
}

impl Line {
    /// What a record is written as.
    #[must_use]
    pub fn of(record: &Record) -> Self {
        Self {
            schema: SCHEMA.to_owned(),
            day: record.day.to_string(),
            customer: record.customer,
            number: record.number,
            population: record.head.population.to_string(),
            readings: record.head.readings.iter().map(LineRead::of).collect(),
            shape: record.head.shape.and_then(LineShape::of),
            wears: record.head.wears.iter().map(LineWears::of).collect(),
            model: record.model.to_string(),
            size: record.size.to_string(),
            fit_probability: record.fit_probability,
            rounds: record.rounds.iter().map(LineRound::of).collect(),
        }
    }

    fn record(self) -> Result<Record, BadLine> {
        Ok(Record {
            day: Day::try_from(self.day.as_str()).map_err(|fault: BadDay| bad("day", &fault.to_string()))?,
            customer: positive("customer", self.customer)?,
            number: positive("try", self.number)?,
            head: Head {
                population: name("population", self.population)?,
                readings: self.readings.into_iter().map(LineRead::read).try_collect()?,
                shape: self.shape.map(|shape| shape as usize),
                wears: self.wears.into_iter().map(LineWears::wears).try_collect()?,
            },
            model: name("model", self.model)?,
            size: name("size", self.size)?,
            fit_probability: self.fit_probability.map(probability).transpose()?,
            rounds: rounds(self.rounds)?,
        })
    }
}

impl LineRound {
    fn of(round: &Round) -> Self {
        Self {
            pads_mm: LinePads::of(&round.pads),
            reason: round.reason.map(|reason| reason.id().to_owned()),
            minutes: round.minutes,
        }
    }

    fn round(self) -> Result<Round, BadLine> {
        Ok(Round {
            pads: self.pads_mm.pads()?,
            reason: self.reason.map(|text| reason("rounds.reason", &text)).transpose()?,
            minutes: minutes("rounds.minutes", self.minutes)?,
        })
    }
}

fn rounds(lines: Vec<LineRound>) -> Result<Vec<Round>, BadLine> {
    let rounds: Vec<Round> = lines.into_iter().map(LineRound::round).try_collect()?;
    let last = rounds.len().checked_sub(1).ok_or_else(|| bad("rounds", "is empty: a try has at least one"))?;
    if rounds[..last].iter().any(|round| round.reason.is_none()) {
        return Err(bad("rounds", "goes on after a good fit"));
    }
    Ok(rounds)
}

fn positive<T: Default + PartialOrd>(key: &str, number: T) -> Result<T, BadLine> {
    if number > T::default() { Ok(number) } else { Err(bad(key, "starts from 1")) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    const LINE: &str = r#"{"schema":"lidladder.try/1","day":"2026-03-14","customer":7,"try":1,"population":"adults","readings":[{"measure":"circumference","mm":575.0,"sd_mm":3.0,"by":"staff","with":"tape"}],"shape":"round","wears":[{"model":"wexmarsh-one","size":"L","reason":"temples-press"}],"model":"haspenfell-lift","size":"M","fit_probability":0.62,"rounds":[{"pads_mm":{"brow":10.0,"rear":12.0,"sides":12.0,"crown":10.0,"cheeks":30.0},"reason":"temples-press","minutes":11.0},{"pads_mm":{"brow":10.0,"rear":12.0,"sides":10.0,"crown":10.0,"cheeks":null},"reason":null,"minutes":5.0}]}"#;

    #[test]
    fn a_line_survives_reading_and_writing() {
        let record = from_line(LINE).unwrap();
        assert_eq!(to_line(&record), LINE);
        assert!(record.fits() && record.rounds.len() == 2);
    }

    #[test]
    fn no_start_of_a_line_is_a_line() {
        for end in (0..LINE.len()).filter(|end| LINE.is_char_boundary(*end)) {
            assert_eq!(from_line(&LINE[..end]), Err(BadLine::CutOff), "{end}");
        }
    }

    #[rstest]
    #[case(r#""try":1"#, r#""try":0"#, "`try` starts from 1")]
    #[case(r#""day":"2026-03-14""#, r#""day":"14.3.""#, "`day` a day is written as year, month and day: 2026-03-14")]
    #[case("lidladder.try/1", "lidladder.try/9", "says `lidladder.try/9`, not `lidladder.try/1`")]
    #[case("575.0", "57.5", "`readings.mm` is not from 440 to 700")]
    #[case(
        r#""model":"haspenfell-lift""#,
        r#""model":"../x""#,
        "`model` a name is 1 to 48 letters, digits and single hyphens, such as \"harbour-two\" or \"XL\""
    )]
    #[case("0.62", "1.62", "`fit_probability` is not from 0 to 1")]
    #[case(r#""reason":"temples-press","minutes""#, r#""reason":null,"minutes""#, "`rounds` goes on after a good fit")]
    #[case(
        r#""reason":"temples-press","minutes""#,
        r#""reason":"ouch","minutes""#,
        "`rounds.reason` is no reason that this program knows"
    )]
    fn a_bad_value_is_named(#[case] good: &str, #[case] bad: &str, #[case] told: &str) {
        assert_eq!(from_line(&LINE.replacen(good, bad, 1)).unwrap_err().to_string(), told);
    }

    #[test]
    fn an_unknown_key_is_refused() {
        assert!(matches!(from_line(&LINE.replacen("\"shape\"", "\"name\"", 1)), Err(BadLine::NoRecord(_))));
    }
}
