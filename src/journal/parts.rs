//! What a line of JSON is made of: readings, worn helmets, pads, and values within their bounds. Notes of a session are
//! made of the same.

use super::BadLine;
use super::record::{Read, Wears};
use crate::head::Measure;
use crate::profile::{ByZone, Measurer, Reason, Tool, Zone};
use crate::unit::{BadId, Id};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct LineRead {
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
pub(crate) struct LineWears {
    model: String,
    size: String,
    /// Where it hurts; null for a helmet that fits.
    reason: Option<String>,
}

#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct LinePads {
    brow: Option<f64>,
    rear: Option<f64>,
    sides: Option<f64>,
    crown: Option<f64>,
    cheeks: Option<f64>,
}

#[derive(Clone, Copy, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub(crate) enum LineShape {
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

impl LineRead {
    pub(crate) fn of(read: &Read) -> Self {
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

    pub(crate) fn read(self) -> Result<Read, BadLine> {
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
    pub(crate) fn of(worn: &Wears) -> Self {
        Self {
            model: worn.model.to_string(),
            size: worn.size.to_string(),
            reason: worn.reason.map(|reason| reason.id().to_owned()),
        }
    }

    pub(crate) fn wears(self) -> Result<Wears, BadLine> {
        Ok(Wears {
            model: name("wears.model", self.model)?,
            size: name("wears.size", self.size)?,
            reason: self.reason.map(|text| reason("wears.reason", &text)).transpose()?,
        })
    }
}

impl LinePads {
    pub(crate) fn of(pads: &ByZone<Option<f64>>) -> Self {
        let mm = |zone| *pads.get(zone);
        Self {
            brow: mm(Zone::Brow),
            rear: mm(Zone::Rear),
            sides: mm(Zone::Sides),
            crown: mm(Zone::Crown),
            cheeks: mm(Zone::Cheeks),
        }
    }

    pub(crate) fn pads(&self) -> Result<ByZone<Option<f64>>, BadLine> {
        let Self { brow, rear, sides, crown, cheeks } = *self;
        for mm in [brow, rear, sides, crown, cheeks].into_iter().flatten() {
            within("pads_mm", mm, 0.0, THICKEST_PAD)?;
        }
        Ok(ByZone::from_fn(|zone| match zone {
            Zone::Brow => brow,
            Zone::Rear => rear,
            Zone::Sides => sides,
            Zone::Crown => crown,
            Zone::Cheeks => cheeks,
        }))
    }
}

impl LineShape {
    /// 0 long, 1 intermediate, 2 round.
    pub(crate) fn of(at: usize) -> Option<Self> {
        [Self::Long, Self::Intermediate, Self::Round].get(at).copied()
    }
}

/// Wide of everything that a shop writes, to catch slips, not rare cases: mm, mm, minutes.
const WIDEST_ERROR: f64 = 50.0;
const THICKEST_PAD: f64 = 100.0;
const MINUTES_OF_A_DAY: f64 = 1440.0;

pub(crate) fn bad(key: &str, why: &str) -> BadLine {
    BadLine::Value { key: key.to_owned(), why: why.to_owned() }
}

/// A name of the profiles.
pub(crate) fn name(key: &str, text: String) -> Result<Id, BadLine> {
    Id::try_from(text).map_err(|fault: BadId| bad(key, &fault.to_string()))
}

/// A reason by its id.
pub(crate) fn reason(key: &str, text: &str) -> Result<Reason, BadLine> {
    Reason::from_id(text).ok_or_else(|| bad(key, "is no reason that this program knows"))
}

/// Minutes of a round.
pub(crate) fn minutes(key: &str, value: f64) -> Result<f64, BadLine> {
    within(key, value, 0.0, MINUTES_OF_A_DAY)
}

pub(crate) fn probability(value: f64) -> Result<f64, BadLine> {
    within("fit_probability", value, 0.0, 1.0)
}

pub(super) fn within(key: &str, value: f64, least: f64, most: f64) -> Result<f64, BadLine> {
    if (least..=most).contains(&value) { Ok(value) } else { Err(bad(key, &format!("is not from {least} to {most}"))) }
}
