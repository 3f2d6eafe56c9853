//! The shop's assumptions about customers who measure at home.

use super::Checker;
use crate::profile::AwayRules;
use crate::profile::bounds::SHARE;
use crate::profile::raw::RawAway;

pub(super) fn away_rules(check: &mut Checker<'_>, raw: &RawAway) -> AwayRules {
    AwayRules {
        postage_out: check.money("away.postage_out", raw.postage_out),
        postage_back: check.money("away.postage_back", raw.postage_back),
        handling: check.money("away.handling", raw.handling),
        visit: check.money("away.visit", raw.visit),
        minute: check.money("away.minute", raw.minute),
        least_chance: check.number("away.least_chance", raw.least_chance, SHARE, "the chance"),
        repeated_error: check.number("away.repeated_error", raw.repeated_error, SHARE, "the share"),
    }
}
