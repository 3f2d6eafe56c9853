//! What a fitter must look at before a sketch is believed.

use super::{Hump, Oddness, Sketch};
use crate::profile::SketchRules;

/// Something to look at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Finding {
    /// Two statements about the shape are so many standard deviations apart.
    StatementsAtOdds(f64),
    /// Such reports hardly ever come together, whatever the shape.
    OddReports(Oddness),
    /// Such reports hardly ever come from a helmet as sketched, but do from another.
    OddForThis(Oddness, Oddness),
    /// The customers moved the index so many standard deviations away from what was said.
    IndexMoved(f64),
    /// The customers say that the sizes run larger (or smaller, negative) than labelled, by so many mm.
    SizesOff(f64),
    /// Two shapes are possible, and nothing between them.
    TwoHumps([Hump; 2]),
    /// Nobody tried it: the sketch is what was said, and no more.
    NobodyTried,
    /// The customers hardly narrowed the index.
    LittleLearned,
}

impl Sketch {
    /// Everything to look at, in the order in which it matters.
    #[must_use]
    pub fn findings(&self, rules: &SketchRules) -> Vec<Finding> {
        let mut findings = Vec::new();
        if self.discord > rules.far_moved {
            findings.push(Finding::StatementsAtOdds(self.discord));
        }
        if self.at_best.probability < rules.odd_below {
            findings.push(Finding::OddReports(self.at_best));
        } else if self.here.probability < rules.odd_below {
            findings.push(Finding::OddForThis(self.here, self.at_best));
        }
        let moved = (self.index.mean.value - self.prior.mean) / self.prior.sd;
        if moved.abs() > rules.far_moved {
            findings.push(Finding::IndexMoved(moved));
        }
        if self.offset.mean.value.abs() > rules.far_moved * self.prior_offset_sd {
            findings.push(Finding::SizesOff(self.offset.mean.value));
        }
        findings.extend(self.humps.map(Finding::TwoHumps));
        if self.heard.is_empty() {
            findings.push(Finding::NobodyTried);
        } else if findings.is_empty() && self.is_hardly_narrower(rules) {
            findings.push(Finding::LittleLearned);
        }
        findings
    }

    /// Whether the error stayed and the mean, too: where the prior was right, a mean moves by about what the variance
    /// loses.
    fn is_hardly_narrower(&self, rules: &SketchRules) -> bool {
        let left = self.index.sd.value / self.prior.sd;
        let moved = (self.index.mean.value - self.prior.mean).abs() / self.prior.sd;
        left >= rules.little_learned && moved <= (1.0 - rules.little_learned.powi(2)).sqrt()
    }
}
