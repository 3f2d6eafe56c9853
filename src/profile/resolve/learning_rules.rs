//! The shop's assumptions about learning from journals.

use super::Checker;
use crate::profile::LearningRules;
use crate::profile::bounds::{CLEAR_SDS, COUNTED, FACTOR, HELD_OUT, SHARE};
use crate::profile::raw::RawLearning;

pub(super) fn learning_rules(check: &mut Checker<'_>, raw: &RawLearning) -> LearningRules {
    let mut number = |key: &str, number, bounds, what| check.number(&format!("learning.{key}"), number, bounds, what);
    LearningRules {
        held_out: number("held_out", raw.held_out, HELD_OUT, "the number of customers"),
        least_customers: number("least_customers", raw.least_customers, COUNTED, "the number of customers"),
        clear_sds: number("clear_sds", raw.clear_sds, CLEAR_SDS, "the distance in sd"),
        narrowed: number("narrowed", raw.narrowed, SHARE, "the share of the sd"),
        misreport_failures: number("misreport_failures", raw.misreport_failures, COUNTED, "the number of failures"),
        measuring_factor: number("measuring_factor", raw.measuring_factor, FACTOR, "the factor"),
        population_customers: number(
            "population_customers",
            raw.population_customers,
            COUNTED,
            "the number of customers",
        ),
    }
}
