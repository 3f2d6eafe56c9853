//! A record as one line of JSON (JSON Lines), `lidladder.try/1`.

use super::record::{Head, Read, Record, Round, Wears};
use super::{BadDay, Day};
use crate::head::Measure;
use crate::profile::{ByZone, Measurer, Reason, Tool, Zone};
use crate::unit::{BadId, Id};
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
    if let Ok(Version { schema }) = serde_json::from_str(text)
        && schema != SCHEMA
    {
        return Err(BadLine::Version(schema));
    }
    let line: Line = serde_json::from_str(text)
        .map_err(|fault| if fault.is_eof() { BadLine::CutOff } else { BadLine::NoRecord(fault.to_string()) })?;
    line.record()
}

/// The JSON Schema of a line.
#[must_use]
pub fn line_schema() -> serde_json::Value {
    schemars::schema_for!(Line).to_value()
}

/// What every version of a line has.
#[derive(Deserialize)]
struct Version {
    schema: String,
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
struct LineRead {
    /// What was measured.
    measure: LineMeasure,
    /// The value read.
    mm: f64,
    /// How far such a reading was taken to be off (standard deviation).
    #[schemars(range(min = 0))]
    sd_mm: f64,
    /// Who measured.
    by: LineMeasurer,
    /// With what.
    with: LineTool,
}

#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct LineWears {
    model: String,
    size: String,
    /// Where it hurts; null for a helmet that fits.
    reason: Option<String>,
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

#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct LinePads {
    brow: Option<f64>,
    rear: Option<f64>,
    sides: Option<f64>,
    crown: Option<f64>,
    cheeks: Option<f64>,
}

#[derive(Clone, Copy, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
enum LineShape {
    Long,
    Intermediate,
    Round,
}

#[derive(Clone, Copy, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum LineMeasure {
    Circumference,
    Length,
    Breadth,
    FaceWidth,
}

#[derive(Clone, Copy, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
enum LineMeasurer {
    Staff,
    Customer,
}

#[derive(Clone, Copy, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
enum LineTool {
    Tape,
    Caliper,
    Ruler,
    Phone,
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
            shape: record.head.shape.and_then(|at| SHAPES.get(at).copied()),
            wears: record.head.wears.iter().map(LineWears::of).collect(),
            model: record.model.to_string(),
            size: record.size.to_string(),
            fit_probability: record.fit_probability,
            rounds: record.rounds.iter().map(LineRound::of).collect(),
        }
    }

    fn record(self) -> Result<Record, BadLine> {
        let name = |key: &str, text: String| Id::try_from(text).map_err(|fault: BadId| bad(key, &fault.to_string()));
        let wears = self.wears.into_iter().map(|worn| {
            let reason = worn.reason.map(|text| reason("wears.reason", &text)).transpose()?;
            Ok(Wears { model: name("wears.model", worn.model)?, size: name("wears.size", worn.size)?, reason })
        });
        Ok(Record {
            day: Day::try_from(self.day.as_str()).map_err(|fault: BadDay| bad("day", &fault.to_string()))?,
            customer: positive("customer", self.customer)?,
            number: positive("try", self.number)?,
            head: Head {
                population: name("population", self.population)?,
                readings: self.readings.into_iter().map(LineRead::read).try_collect()?,
                shape: self.shape.map(|shape| shape as usize),
                wears: wears.collect::<Result<_, BadLine>>()?,
            },
            model: name("model", self.model)?,
            size: name("size", self.size)?,
            fit_probability: self.fit_probability.map(probability).transpose()?,
            rounds: rounds(self.rounds)?,
        })
    }
}

impl LineRead {
    fn of(read: &Read) -> Self {
        Self {
            measure: match read.measure {
                Measure::Circumference => LineMeasure::Circumference,
                Measure::Length => LineMeasure::Length,
                Measure::Breadth => LineMeasure::Breadth,
                Measure::FaceWidth => LineMeasure::FaceWidth,
            },
            mm: read.value,
            sd_mm: read.sd,
            by: match read.by {
                Measurer::Staff => LineMeasurer::Staff,
                Measurer::Customer => LineMeasurer::Customer,
            },
            with: match read.with {
                Tool::Tape => LineTool::Tape,
                Tool::Caliper => LineTool::Caliper,
                Tool::Ruler => LineTool::Ruler,
                Tool::Phone => LineTool::Phone,
            },
        }
    }

    fn read(self) -> Result<Read, BadLine> {
        let measure = match self.measure {
            LineMeasure::Circumference => Measure::Circumference,
            LineMeasure::Length => Measure::Length,
            LineMeasure::Breadth => Measure::Breadth,
            LineMeasure::FaceWidth => Measure::FaceWidth,
        };
        let (least, most) = measure.human_range();
        Ok(Read {
            measure,
            value: within("readings.mm", self.mm, least, most)?,
            sd: within("readings.sd_mm", self.sd_mm, 0.0, WIDEST_ERROR)?,
            by: match self.by {
                LineMeasurer::Staff => Measurer::Staff,
                LineMeasurer::Customer => Measurer::Customer,
            },
            with: match self.with {
                LineTool::Tape => Tool::Tape,
                LineTool::Caliper => Tool::Caliper,
                LineTool::Ruler => Tool::Ruler,
                LineTool::Phone => Tool::Phone,
            },
        })
    }
}

impl LineWears {
    fn of(worn: &Wears) -> Self {
        Self {
            model: worn.model.to_string(),
            size: worn.size.to_string(),
            reason: worn.reason.map(|reason| reason.id().to_owned()),
        }
    }
}

impl LineRound {
    fn of(round: &Round) -> Self {
        let mm = |zone| *round.pads.get(zone);
        Self {
            pads_mm: LinePads {
                brow: mm(Zone::Brow),
                rear: mm(Zone::Rear),
                sides: mm(Zone::Sides),
                crown: mm(Zone::Crown),
                cheeks: mm(Zone::Cheeks),
            },
            reason: round.reason.map(|reason| reason.id().to_owned()),
            minutes: round.minutes,
        }
    }

    fn round(self) -> Result<Round, BadLine> {
        let LinePads { brow, rear, sides, crown, cheeks } = self.pads_mm;
        for mm in [brow, rear, sides, crown, cheeks].into_iter().flatten() {
            within("rounds.pads_mm", mm, 0.0, THICKEST_PAD)?;
        }
        Ok(Round {
            pads: ByZone::from_fn(|zone| match zone {
                Zone::Brow => brow,
                Zone::Rear => rear,
                Zone::Sides => sides,
                Zone::Crown => crown,
                Zone::Cheeks => cheeks,
            }),
            reason: self.reason.map(|text| reason("rounds.reason", &text)).transpose()?,
            minutes: within("rounds.minutes", self.minutes, 0.0, MINUTES_OF_A_DAY)?,
        })
    }
}

const SHAPES: [LineShape; 3] = [LineShape::Long, LineShape::Intermediate, LineShape::Round];

/// Wide of everything that a shop writes, to catch slips, not rare cases: mm, mm, minutes.
const WIDEST_ERROR: f64 = 50.0;
const THICKEST_PAD: f64 = 100.0;
const MINUTES_OF_A_DAY: f64 = 1440.0;

fn rounds(lines: Vec<LineRound>) -> Result<Vec<Round>, BadLine> {
    let rounds: Vec<Round> = lines.into_iter().map(LineRound::round).try_collect()?;
    let last = rounds.len().checked_sub(1).ok_or_else(|| bad("rounds", "is empty: a try has at least one"))?;
    if rounds[..last].iter().any(|round| round.reason.is_none()) {
        return Err(bad("rounds", "goes on after a good fit"));
    }
    Ok(rounds)
}

fn bad(key: &str, why: &str) -> BadLine {
    BadLine::Value { key: key.to_owned(), why: why.to_owned() }
}

fn reason(key: &str, text: &str) -> Result<Reason, BadLine> {
    Reason::from_id(text).ok_or_else(|| bad(key, "is no reason that this program knows"))
}

fn positive<T: Default + PartialOrd>(key: &str, number: T) -> Result<T, BadLine> {
    if number > T::default() { Ok(number) } else { Err(bad(key, "starts from 1")) }
}

fn probability(value: f64) -> Result<f64, BadLine> {
    within("fit_probability", value, 0.0, 1.0)
}

fn within(key: &str, value: f64, least: f64, most: f64) -> Result<f64, BadLine> {
    if (least..=most).contains(&value) { Ok(value) } else { Err(bad(key, &format!("is not from {least} to {most}"))) }
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
