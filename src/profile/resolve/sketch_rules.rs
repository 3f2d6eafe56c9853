//! The shop's assumptions about experience with new helmets.

use super::Checker;
use crate::profile::SketchRules;
use crate::profile::bounds::{
    COMPARISON_SD, FAR_MOVED, HUMP_SHARE, LEAST_SPREAD, ODD_BELOW, SHARE, SKETCH_BIG_STEP, SKETCH_STEP,
};
use crate::profile::raw::RawSketch;

pub(super) fn sketch_rules(check: &mut Checker<'_>, raw: &RawSketch) -> SketchRules {
    let step = check.number("sketch.step", raw.step, SKETCH_STEP, "the step");
    let big_step = check.number("sketch.big_step", raw.big_step, SKETCH_BIG_STEP, "the big step");
    if step > big_step {
        let message = "a big step must not be smaller than a step";
        check.error("profile-order", "sketch", message, "in the wrong order", "write step: 1.5, big_step: 3.0");
    }
    SketchRules {
        step,
        big_step,
        comparison_sd: check.number("sketch.comparison_sd", raw.comparison_sd, COMPARISON_SD, "the sd of a comparison"),
        least_spread: check.number("sketch.least_spread", raw.least_spread, LEAST_SPREAD, "the least spread"),
        far_moved: check.number("sketch.far_moved", raw.far_moved, FAR_MOVED, "the distance in sd"),
        odd_below: check.number("sketch.odd_below", raw.odd_below, ODD_BELOW, "the probability"),
        little_learned: check.number("sketch.little_learned", raw.little_learned, SHARE, "the share of the sd"),
        hump_share: check.number("sketch.hump_share", raw.hump_share, HUMP_SHARE, "the share of a hump"),
    }
}
