//! Whether what was learned of a figure is enough to change it.

use super::Belief;
use crate::profile::LearningRules;

/// What is to become of a figure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// It moved clearly, and is known better: a change is proposed.
    Change,
    /// Nothing was heard of it.
    Silent,
    /// Too few customers were heard at all.
    TooFew,
    /// It is known hardly better than before.
    Vague,
    /// It is known better, and is where it was.
    Confirmed,
    /// It moved, but customers who were kept apart are foretold worse with it.
    Worse,
    /// It moved, but the profile holds a measured interior: that comes first, and has to be looked at.
    Measured,
}

impl Verdict {
    /// The verdict on a figure that so many customers told of.
    pub(super) fn on([before, now]: [Belief; 2], customers: usize, rules: &LearningRules) -> Self {
        #[expect(clippy::cast_precision_loss, reason = "far below 2⁵²")]
        let customers = customers as f64;
        if customers < 1.0 {
            return Self::Silent;
        }
        if customers < rules.least_customers {
            return Self::TooFew;
        }
        if now.sd > rules.narrowed * before.sd || before.sd <= 0.0 {
            return Self::Vague;
        }
        if (now.mean - before.mean).abs() > rules.clear_sds * now.sd { Self::Change } else { Self::Confirmed }
    }

    /// The same where what was kept apart speaks against a change, or a measurement comes before it.
    pub(super) fn unless(self, is_so: impl FnOnce() -> bool, other: Self) -> Self {
        if self == Self::Change && is_so() { other } else { self }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::{Origin, load};
    use crate::diag::Sources;
    use rstest::rstest;

    #[rstest]
    #[case((0.0, 1.0), (3.0, 0.2), 0, Verdict::Silent)]
    #[case((0.0, 1.0), (3.0, 0.2), 5, Verdict::TooFew)]
    #[case((0.0, 1.0), (3.0, 0.9), 500, Verdict::Vague)]
    #[case((0.0, 1.0), (0.3, 0.2), 500, Verdict::Confirmed)]
    #[case((0.0, 1.0), (-3.0, 0.2), 500, Verdict::Change)]
    #[case((0.0, 0.0), (0.0, 0.0), 500, Verdict::Vague)]
    fn a_change_needs_customers_narrowness_and_distance(
        #[case] before: (f64, f64),
        #[case] now: (f64, f64),
        #[case] customers: usize,
        #[case] verdict: Verdict,
    ) {
        let catalogue = load(&Origin::BuiltIn, &mut Sources::default()).unwrap();
        let beliefs = [before, now].map(|(mean, sd)| Belief { mean, sd });
        assert_eq!(Verdict::on(beliefs, customers, &catalogue.shop.learning), verdict);
    }
}
