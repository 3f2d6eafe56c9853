//! The shop's assumptions about trainees.

use super::Checker;
use crate::profile::PracticeRules;
use crate::profile::bounds::{AGAIN_AFTER, CHOICES, LOOKS_BACK, SHARE, SLIP_MINUTES, SURE_FROM};
use crate::profile::raw::RawPractice;

pub(super) fn practice_rules(check: &mut Checker<'_>, raw: &RawPractice) -> PracticeRules {
    let mut number = |key: &str, number, bounds, what| check.number(&format!("practice.{key}"), number, bounds, what);
    PracticeRules {
        slip_from: number("slip_from", raw.slip_from, SLIP_MINUTES, "the number of minutes"),
        weak_from: number("weak_from", raw.weak_from, SHARE, "the share"),
        sure_from: number("sure_from", raw.sure_from, SURE_FROM, "the probability"),
        usual_slips: number("usual_slips", raw.usual_slips, SHARE, "the share"),
        usual_weight: number("usual_weight", raw.usual_weight, CHOICES, "the number of choices"),
        looks_back: number("looks_back", raw.looks_back, LOOKS_BACK, "the number of choices"),
        clear_shape: number("clear_shape", raw.clear_shape, SHARE, "the probability"),
        again_after: number("again_after", raw.again_after, AGAIN_AFTER, "the number of customers"),
        again_after_days: number("again_after_days", raw.again_after_days, AGAIN_AFTER, "the number of days"),
    }
}
