//! What is proposed for the profile, where a profile can say it.

use super::Sketch;
use crate::profile::{CENTRE_SD_MM, INDEX_SD, SHAPE_INDEX};
use std::ops::RangeInclusive;

/// The interior of a profile, rounded as it is written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Proposal {
    /// The shape index, to a tenth.
    pub shape_index: f64,
    /// Its standard deviation, to a tenth, at least one.
    pub sd: f64,
    /// Standard deviation of the size centres around their labels, mm of circumference, to a tenth: the offset that
    /// is expected is part of it, because a profile keeps the labels.
    pub centre_sd: f64,
}

/// Why a sketch can't become a profile.
#[derive(Debug, Clone, PartialEq)]
pub enum Unfit {
    /// The index lies outside of what a profile takes.
    Index(f64, RangeInclusive<f64>),
    /// The index is known too badly.
    Sd(f64, RangeInclusive<f64>),
    /// The centres lie too far from their labels.
    Centre(f64, RangeInclusive<f64>),
}

impl Sketch {
    /// The interior to write down.
    pub fn proposal(&self) -> Result<Proposal, Unfit> {
        let shape_index = tenths(self.index.mean.value);
        let sd = tenths(self.index.sd.value).max(0.1);
        let centre_sd = tenths(self.offset.mean.value.hypot(self.offset.sd.value));
        if !SHAPE_INDEX.contains(&shape_index) {
            return Err(Unfit::Index(shape_index, SHAPE_INDEX));
        }
        if !INDEX_SD.contains(&sd) {
            return Err(Unfit::Sd(sd, INDEX_SD));
        }
        if !CENTRE_SD_MM.contains(&centre_sd) {
            return Err(Unfit::Centre(centre_sd, CENTRE_SD_MM));
        }
        Ok(Proposal { shape_index, sd, centre_sd })
    }
}

fn tenths(value: f64) -> f64 {
    (value * 10.0).round() / 10.0
}
