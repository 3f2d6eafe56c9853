//! What each way to serve a customer who is away is expected to cost shop and customer together.

use crate::profile::AwayRules;
use crate::unit::Money;

/// Expected costs in minor units, from the shop's assumptions. Whom nothing fits comes in all the same.
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
    pub(super) fn one(&self, fits: f64, minutes: f64) -> f64 {
        self.out + self.minute * minutes + (1.0 - fits) * (self.back + self.visit)
    }

    /// Two helmets: one of them comes back in any case. `fits` is the chance that one of them fits.
    pub(super) fn two(&self, fits: f64, minutes: f64) -> f64 {
        2.0 * self.out + self.minute * minutes + self.back + (1.0 - fits) * (self.back + self.visit)
    }

    /// No helmet.
    pub(super) fn visit(&self) -> f64 {
        self.visit
    }

    /// What a minute of mounting costs, as a share of what a fit saves; 0 where a fit saves nothing.
    pub(super) fn minute_share(&self) -> f64 {
        let saved = self.back + self.visit;
        if saved > 0.0 { self.minute / saved } else { 0.0 }
    }
}

fn minor(money: Money) -> f64 {
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
        assert!((costs.one(1.0, 2.0) - 860.0).abs() < 1e-9, "sent, and it fits");
        assert!((costs.one(0.0, 0.0) - 10_600.0).abs() < 1e-9, "sent, comes back, and a visit");
        assert!((costs.two(1.0, 0.0) - 3_300.0).abs() < 1e-9, "two sent, one comes back");
        assert!((costs.two(0.0, 0.0) - 13_200.0).abs() < 1e-9, "both come back, and a visit");
        assert!((costs.minute_share() - 80.0 / 9_900.0).abs() < 1e-12);
    }
}
