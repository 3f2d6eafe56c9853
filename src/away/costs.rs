//! What each way to serve a customer who is away is expected to cost shop and customer together.

use crate::profile::AwayRules;
use crate::unit::Money;

/// Expected costs in minor units, from the shop's assumptions. Whom nothing fits comes in all the same.
///
/// Mounted pads are money lost, unless the helmet that is kept needs them: with the standard pads it would not fit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Costs {
    out: f64,
    back: f64,
    visit: f64,
    minute: f64,
}

impl Costs {
    pub(super) fn of(rules: &AwayRules) -> Self {
        Self {
            out: minor(rules.postage_out),
            back: minor(rules.postage_back) + minor(rules.handling),
            visit: minor(rules.visit),
            minute: minor(rules.minute),
        }
    }

    /// One helmet: what fails comes back, and its customer comes in.
    pub(super) fn one(&self, fits: f64, mounting: f64) -> f64 {
        self.out + mounting + (1.0 - fits) * (self.back + self.visit)
    }

    /// Two helmets: one of them comes back in any case. `fits` is the chance that one of them fits.
    pub(super) fn two(&self, fits: f64, mounting: f64) -> f64 {
        2.0 * self.out + mounting + self.back + (1.0 - fits) * (self.back + self.visit)
    }

    /// No helmet.
    pub(super) fn visit(&self) -> f64 {
        self.visit
    }

    /// What it costs to mount pads, when these are needed so often.
    pub(super) fn mounting(&self, minutes: f64, price: Money, needed: f64) -> f64 {
        self.minute * minutes + minor(price) * (1.0 - needed)
    }

    /// An amount as a share of what a fit saves; 0 where a fit saves nothing.
    pub(super) fn share(&self, amount: f64) -> f64 {
        let saved = self.back + self.visit;
        if saved > 0.0 { amount / saved } else { 0.0 }
    }

    /// What a minute costs.
    pub(super) fn minute(&self) -> f64 {
        self.minute
    }
}

/// In minor units.
pub(super) fn minor(money: Money) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "sums far below 2^52")]
    let minor = money.minor() as f64;
    minor
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn costs_are_what_is_sent_and_what_comes_back() {
        let costs = Costs { out: 700.0, back: 1_900.0, visit: 8_000.0, minute: 80.0 };
        assert!((costs.one(1.0, 160.0) - 860.0).abs() < 1e-9, "sent, and it fits");
        assert!((costs.one(0.0, 0.0) - 10_600.0).abs() < 1e-9, "sent, comes back, and a visit");
        assert!((costs.two(1.0, 0.0) - 3_300.0).abs() < 1e-9, "two sent, one comes back");
        assert!((costs.two(0.0, 0.0) - 13_200.0).abs() < 1e-9, "both come back, and a visit");
        assert!((costs.share(99.0) - 0.01).abs() < 1e-12);
        let pads = Money::of_minor(2_000);
        assert!((costs.mounting(2.0, pads, 0.0) - 2_160.0).abs() < 1e-9, "pads that nobody needs");
        assert!((costs.mounting(2.0, pads, 1.0) - 160.0).abs() < 1e-9, "pads without which it doesn't fit");
    }
}
