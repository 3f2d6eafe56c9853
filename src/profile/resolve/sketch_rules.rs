//! The shop's assumptions about experience with new helmets.

use super::Checker;
use crate::profile::SketchRules;
use crate::profile::raw::RawSketch;

pub(super) fn sketch_rules(check: &mut Checker<'_>, raw: &RawSketch) -> SketchRules {
    let step = check.number("sketch.step", raw.step, 0.0..=10.0, "the step");
    let big_step = check.number("sketch.big_step", raw.big_step, 0.0..=20.0, "the big step");
    if step > big_step {
        let message = "a big step must not be smaller than a step";
        check.error("profile-order", "sketch", message, "in the wrong order", "write step: 1.5, big_step: 3.0");
    }
    SketchRules {
        step,
        big_step,
        comparison_sd: check.number("sketch.comparison_sd", raw.comparison_sd, 0.1..=10.0, "the sd of a comparison"),
        least_spread: check.number("sketch.least_spread", raw.least_spread, 0.1..=20.0, "the least spread"),
        far_moved: check.number("sketch.far_moved", raw.far_moved, 0.5..=10.0, "the distance in sd"),
        odd_below: check.number("sketch.odd_below", raw.odd_below, 0.0..=0.5, "the probability"),
        little_learned: check.number("sketch.little_learned", raw.little_learned, 0.0..=1.0, "the share of the sd"),
        hump_share: check.number("sketch.hump_share", raw.hump_share, 0.01..=0.5, "the share of a hump"),
    }
}
