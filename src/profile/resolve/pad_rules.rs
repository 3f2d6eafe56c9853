//! The shop's assumptions about pads that are bought for a customer.

use super::Checker;
use crate::profile::raw::{RawPadRules, RawPayer};
use crate::profile::{PadRules, Payer};

pub(super) fn pad_rules(check: &mut Checker<'_>, raw: &RawPadRules) -> PadRules {
    let paid_by = match raw.paid_by {
        RawPayer::Customer => Payer::Customer,
        RawPayer::Shop => Payer::Shop,
    };
    PadRules { paid_by, free_up_to: check.money("pads.free_up_to", raw.free_up_to) }
}
