//! The shop's assumptions about buying: models for the range, pads for the drawer.

use super::Checker;
use crate::profile::bounds::{CUSTOMERS_PER_WEEK, DELIVERY_DAYS, PAD_STEP_MM, PADS_EACH_WAY, SERVICE_LEVEL, SHARE};
use crate::profile::raw::{RawBuying, RawStocking};
use crate::profile::{BuyingRules, StockingRules};

pub(super) fn buying_rules(check: &mut Checker<'_>, raw: &RawBuying) -> BuyingRules {
    let mut number = |key: &str, number, bounds, what| check.number(&format!("buying.{key}"), number, bounds, what);
    BuyingRules {
        gap_from: number("gap_from", raw.gap_from, SHARE, "the share"),
        least_gap: number("least_gap", raw.least_gap, SHARE, "the share"),
        keep: number("keep", raw.keep, SHARE, "the share"),
        least_gain: number("least_gain", raw.least_gain, SHARE, "the share"),
        pad_step: number("pad_step_mm", raw.pad_step_mm, PAD_STEP_MM, "the step in mm"),
        pads_each_way: number("pads_each_way", raw.pads_each_way, PADS_EACH_WAY, "the number of pads"),
    }
}

pub(super) fn stocking_rules(check: &mut Checker<'_>, raw: &RawStocking) -> StockingRules {
    let mut number = |key: &str, number, bounds, what| check.number(&format!("stocking.{key}"), number, bounds, what);
    StockingRules {
        customers_per_week: number(
            "customers_per_week",
            raw.customers_per_week,
            CUSTOMERS_PER_WEEK,
            "the number of customers",
        ),
        delivery_days: number("delivery_days", raw.delivery_days, DELIVERY_DAYS, "the number of days"),
        service_level: number("service_level", raw.service_level, SERVICE_LEVEL, "the probability"),
        margin: raw.margin.map(|margin| number("margin", margin, SHARE, "the share")),
        left_over_loss: number("left_over_loss", raw.left_over_loss, SHARE, "the share"),
    }
}
