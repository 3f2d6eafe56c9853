//! Opening and events as lines of JSON, so that a session can be left and resumed: `lidladder.session/1`.

use super::event::{Event, OnHead, Tried};
use super::opening::Opening;
use crate::journal::parts::{LinePads, LineRead, LineShape, LineWears, bad, minutes, name, probability, reason};
use crate::journal::{BadLine, Day, Head};
use crate::plan::Lead;
use itertools::Itertools;
use serde::{Deserialize, Serialize};

/// What the first key of an opening says.
pub const SESSION_SCHEMA: &str = "lidladder.session/1";

/// Why a line is no note of a session.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum BadNote {
    /// No JSON with the keys of a note: what the reader said.
    #[error("{0}")]
    NoNote(String),
    /// Of a version that this program doesn't know.
    #[error("says `{0}`, not `{SESSION_SCHEMA}`")]
    Version(String),
    /// A key holds what it can't.
    #[error(transparent)]
    Value(#[from] BadLine),
}

/// The first line of a session.
#[must_use]
pub fn opening_note(opening: &Opening) -> String {
    serde_json::to_string(&OpeningNote::of(opening)).unwrap_or_default()
}

/// What such a line says.
///
/// # Errors
///
/// What is wrong with it.
pub fn read_opening(text: &str) -> Result<Opening, BadNote> {
    let note: OpeningNote = serde_json::from_str(text).map_err(no_note)?;
    if note.schema != SESSION_SCHEMA {
        return Err(BadNote::Version(note.schema));
    }
    Ok(note.opening()?)
}

/// An event as a line.
#[must_use]
pub fn to_note(event: &Event) -> String {
    serde_json::to_string(&EventNote::of(event)).unwrap_or_default()
}

/// The event that a line holds.
///
/// # Errors
///
/// What is wrong with it.
pub fn from_note(text: &str) -> Result<Event, BadNote> {
    let note: EventNote = serde_json::from_str(text).map_err(no_note)?;
    Ok(note.event()?)
}

#[expect(clippy::needless_pass_by_value, reason = "as `map_err` hands it over")]
fn no_note(fault: serde_json::Error) -> BadNote {
    BadNote::NoNote(fault.to_string())
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct OpeningNote {
    schema: String,
    day: String,
    seed: u64,
    tries: usize,
    minutes: Option<f64>,
    lead: LeadNote,
    population: String,
    readings: Vec<LineRead>,
    shape: Option<LineShape>,
    wears: Vec<LineWears>,
    models: Vec<String>,
    absent: Vec<(String, String)>,
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum LeadNote {
    ShopFirst,
    ShopOnly,
    ComputedOnly,
}

#[derive(Serialize, Deserialize)]
#[serde(tag = "event", rename_all = "kebab-case", deny_unknown_fields)]
enum EventNote {
    Tried {
        model: String,
        size: String,
        pads_mm: LinePads,
        is_swap: bool,
        fit_probability: Option<f64>,
        minutes: f64,
        reason: Option<String>,
    },
    Chose {
        model: String,
        size: String,
        pads_mm: LinePads,
        is_swap: bool,
    },
    Declined {
        model: String,
    },
    Measured {
        reading: LineRead,
    },
    TookBack {},
    Ended {},
}

impl OpeningNote {
    fn of(opening: &Opening) -> Self {
        Self {
            schema: SESSION_SCHEMA.to_owned(),
            day: opening.day.to_string(),
            seed: opening.seed,
            tries: opening.tries,
            minutes: opening.minutes,
            lead: match opening.lead {
                Lead::ShopFirst => LeadNote::ShopFirst,
                Lead::ShopOnly => LeadNote::ShopOnly,
                Lead::ComputedOnly => LeadNote::ComputedOnly,
            },
            population: opening.head.population.to_string(),
            readings: opening.head.readings.iter().map(LineRead::of).collect(),
            shape: opening.head.shape.and_then(LineShape::of),
            wears: opening.head.wears.iter().map(LineWears::of).collect(),
            models: opening.models.iter().map(ToString::to_string).collect(),
            absent: opening.absent.iter().map(|(model, size)| (model.to_string(), size.to_string())).collect(),
        }
    }

    fn opening(self) -> Result<Opening, BadLine> {
        let size = |(model, size)| Ok((name("absent", model)?, name("absent", size)?));
        Ok(Opening {
            day: Day::try_from(self.day.as_str()).map_err(|fault| bad("day", &fault.to_string()))?,
            seed: self.seed,
            head: Head {
                population: name("population", self.population)?,
                readings: self.readings.into_iter().map(LineRead::read).try_collect()?,
                shape: self.shape.map(|shape| shape as usize),
                wears: self.wears.into_iter().map(LineWears::wears).try_collect()?,
            },
            models: self.models.into_iter().map(|model| name("models", model)).try_collect()?,
            absent: self.absent.into_iter().map(size).collect::<Result<_, BadLine>>()?,
            tries: self.tries,
            minutes: self.minutes.map(|value| minutes("minutes", value)).transpose()?,
            lead: match self.lead {
                LeadNote::ShopFirst => Lead::ShopFirst,
                LeadNote::ShopOnly => Lead::ShopOnly,
                LeadNote::ComputedOnly => Lead::ComputedOnly,
            },
        })
    }
}

impl EventNote {
    fn of(event: &Event) -> Self {
        match event {
            Event::Tried(tried) => Self::Tried {
                model: tried.helmet.model.to_string(),
                size: tried.helmet.size.to_string(),
                pads_mm: LinePads::of(&tried.helmet.pads),
                is_swap: tried.helmet.is_swap,
                fit_probability: tried.fit_probability,
                minutes: tried.minutes,
                reason: tried.reason.map(|reason| reason.id().to_owned()),
            },
            Event::Chose(helmet) => Self::Chose {
                model: helmet.model.to_string(),
                size: helmet.size.to_string(),
                pads_mm: LinePads::of(&helmet.pads),
                is_swap: helmet.is_swap,
            },
            Event::Declined(model) => Self::Declined { model: model.to_string() },
            Event::Measured(read) => Self::Measured { reading: LineRead::of(read) },
            Event::TookBack => Self::TookBack {},
            Event::Ended => Self::Ended {},
        }
    }

    fn event(self) -> Result<Event, BadLine> {
        Ok(match self {
            Self::Tried { model, size, pads_mm, is_swap, fit_probability, minutes: spent, reason: why } => {
                Event::Tried(Tried {
                    helmet: helmet(model, size, &pads_mm, is_swap)?,
                    fit_probability: fit_probability.map(probability).transpose()?,
                    minutes: minutes("minutes", spent)?,
                    reason: why.map(|text| reason("reason", &text)).transpose()?,
                })
            }
            Self::Chose { model, size, pads_mm, is_swap } => Event::Chose(helmet(model, size, &pads_mm, is_swap)?),
            Self::Declined { model } => Event::Declined(name("model", model)?),
            Self::Measured { reading } => Event::Measured(reading.read()?),
            Self::TookBack {} => Event::TookBack,
            Self::Ended {} => Event::Ended,
        })
    }
}

fn helmet(model: String, size: String, pads: &LinePads, is_swap: bool) -> Result<OnHead, BadLine> {
    Ok(OnHead { model: name("model", model)?, size: name("size", size)?, pads: pads.pads()?, is_swap })
}
