//! What it costs to send helmets to customers who measure at home.

use crate::unit::Money;

/// The shop's assumptions about customers who measure at home. Money is what customer and shop lose together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AwayRules {
    /// To send one helmet.
    pub postage_out: Money,
    /// To have one sent back.
    pub postage_back: Money,
    /// What a helmet that comes back costs besides.
    pub handling: Money,
    /// A visit of the customer.
    pub visit: Money,
    /// A minute of the shop.
    pub minute: Money,
    /// An order with a smaller chance of a fit isn't proposed.
    pub least_chance: f64,
    /// Share of a reading's variance that is the same each time the same person measures.
    pub repeated_error: f64,
}

impl AwayRules {
    /// Standard deviation of the mean of some readings by one person, in the unit of `sd`, which is that of one reading.
    /// The part that repeats itself stays; only the rest averages out.
    #[must_use]
    pub fn mean_sd(&self, sd: f64, readings: usize) -> f64 {
        #[expect(clippy::cast_precision_loss, reason = "a handful")]
        let count = readings.max(1) as f64;
        sd * (self.repeated_error + (1.0 - self.repeated_error) / count).sqrt()
    }

    /// Two readings by one person that differ by more than this, in the unit of `sd`, hardly ever do: 1 pair in 20.
    #[must_use]
    pub fn far_apart(&self, sd: f64) -> f64 {
        TWO_SIDED * (2.0 * (1.0 - self.repeated_error)).sqrt() * sd
    }
}

/// Beyond this many standard deviations lies 1 normal in 20.
const TWO_SIDED: f64 = 1.96;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_shared_error_never_averages_out() {
        let rules = |repeated_error| AwayRules {
            postage_out: Money::default(),
            postage_back: Money::default(),
            handling: Money::default(),
            visit: Money::default(),
            minute: Money::default(),
            least_chance: 0.5,
            repeated_error,
        };
        let sds = |share: f64| [1, 3, 1000].map(|count| format!("{:.2}", rules(share).mean_sd(6.0, count)));
        assert_eq!(sds(0.0), ["6.00", "3.46", "0.19"], "errors that share nothing: sd over the root of the count");
        assert_eq!(sds(0.25), ["6.00", "4.24", "3.00"], "no number of readings goes below the shared part");
        assert_eq!(sds(1.0), ["6.00", "6.00", "6.00"], "errors that are the same each time");
        assert!((rules(0.0).far_apart(1.0) - 2.772).abs() < 1e-3 && rules(1.0).far_apart(6.0) < 1e-9);
    }
}
