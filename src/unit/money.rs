//! Prices in whole minor units, so that adding them never rounds.

use std::fmt;
use std::iter::Sum;
use std::ops::{Add, Mul};

/// An amount in minor units (cents) of the shop's one currency.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Money(u64);

/// Why a number is no price.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("a price is a number from 0 to 1000000 with at most two decimals, such as 389.00")]
pub struct BadMoney;

/// The three letters of ISO 4217 that stand beside a price (`EUR`).
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Currency(String);

impl Money {
    /// The highest price, in major units.
    pub const MOST: f64 = 1e6;

    /// So many minor units.
    #[must_use]
    pub fn of_minor(minor: u64) -> Self {
        Self(minor)
    }

    /// The amount in minor units.
    #[must_use]
    pub fn minor(self) -> u64 {
        self.0
    }

    /// What is left of it after another amount was taken away: nothing where that is more.
    #[must_use]
    pub fn less(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }

    /// A share of it, from 0 to 1, rounded down to whole minor units.
    #[must_use]
    pub fn share(self, share: f64) -> Self {
        #[expect(clippy::cast_precision_loss, reason = "sums far below 2^52")]
        let part = self.0 as f64 * share.clamp(0.0, 1.0);
        // 0.6 of 24.00 is a hair below 14.40 in binary.
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 0 and the whole")]
        Self((part + 1e-6) as u64)
    }

    /// What is gained when this comes in and the other goes out.
    #[must_use]
    pub fn against(self, out: Self) -> Balance {
        Balance(i64::try_from(self.0).unwrap_or(i64::MAX).saturating_sub(i64::try_from(out.0).unwrap_or(i64::MAX)))
    }
}

/// What is gained, in minor units; less than 0 where something is lost.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Balance(i64);

impl Balance {
    /// In minor units.
    #[must_use]
    pub fn minor(self) -> i64 {
        self.0
    }

    /// Without its sign.
    #[must_use]
    pub fn size(self) -> Money {
        Money(self.0.unsigned_abs())
    }
}

impl TryFrom<f64> for Money {
    type Error = BadMoney;

    fn try_from(amount: f64) -> Result<Self, BadMoney> {
        let minor = (amount * 100.0).round();
        // A third decimal is a slip of the pen, not something to round away.
        let has_two_decimals = (amount * 100.0 - minor).abs() < 1e-6;
        if (0.0..=Self::MOST).contains(&amount) && has_two_decimals {
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "bounded above: 0 to 1e8")]
            return Ok(Self(minor as u64));
        }
        Err(BadMoney)
    }
}

impl Add for Money {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl Mul<u32> for Money {
    type Output = Self;

    fn mul(self, count: u32) -> Self {
        Self(self.0.saturating_mul(u64::from(count)))
    }
}

impl Sum for Money {
    fn sum<I: Iterator<Item = Self>>(amounts: I) -> Self {
        amounts.fold(Self::default(), Add::add)
    }
}

impl fmt::Display for Money {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&format!("{}.{:02}", self.0 / 100, self.0 % 100))
    }
}

impl Currency {
    /// The three letters.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl TryFrom<String> for Currency {
    type Error = &'static str;

    fn try_from(text: String) -> Result<Self, Self::Error> {
        if text.len() == 3 && text.bytes().all(|b| b.is_ascii_uppercase()) {
            Ok(Self(text))
        } else {
            Err("a currency is the three capital letters of ISO 4217, such as EUR")
        }
    }
}

impl fmt::Display for Currency {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[test]
    fn amounts_never_go_below_nothing_and_shares_are_rounded_down() {
        let [small, large] = [700, 2_400].map(Money);
        assert_eq!((small.less(large), large.less(small)), (Money(0), Money(1_700)));
        assert_eq!([0.0, 0.6, 0.3333, 1.0].map(|share| large.share(share).minor()), [0, 1_440, 799, 2_400]);
        assert_eq!((small.against(large).minor(), small.against(large).size()), (-1_700, Money(1_700)));
        assert_eq!(small * 3, Money(2_100));
    }

    #[rstest]
    #[case(389.0, Some(38_900))]
    #[case(0.07, Some(7))]
    #[case(19.999, None)]
    #[case(-1.0, None)]
    #[case(f64::NAN, None)]
    #[case(f64::INFINITY, None)]
    fn prices_have_two_decimals(#[case] amount: f64, #[case] minor: Option<u64>) {
        assert_eq!(Money::try_from(amount).ok().map(Money::minor), minor);
    }
}
