//! Price limits that a customer might name.

use crate::unit::Money;
use itertools::{Itertools, MinMaxResult};

/// Limits in one round step, from the cheapest helmet to the dearest: no more than nine.
pub(super) fn limits(prices: impl Iterator<Item = Money>) -> Vec<Money> {
    let (least, most) = match prices.map(Money::minor).minmax() {
        MinMaxResult::NoElements => return Vec::new(),
        MinMaxResult::OneElement(only) => (only, only),
        MinMaxResult::MinMax(least, most) => (least, most),
    };
    let steps = (0..).flat_map(|power| [1, 2, 5].map(|digit| digit * 10_u64.saturating_pow(power)));
    let span = |step: u64| (least.div_ceil(step), most.div_ceil(step));
    // From ten units of money on: nobody names less.
    let step = steps.filter(|step| *step >= 1000).find(|step| span(*step).1 - span(*step).0 < MOST);
    let step = step.unwrap_or(u64::MAX);
    let (first, last) = span(step);
    (first..=last).map(|steps| Money::of_minor(steps.saturating_mul(step))).collect_vec()
}

const MOST: u64 = 9;

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case(&[], &[])]
    #[case(&[38_900], &[390])]
    #[case(&[17_900, 24_900, 61_900], &[200, 300, 400, 500, 600, 700])]
    #[case(&[20_000, 20_001], &[200, 210])]
    fn limits_are_round_and_hold_all(#[case] prices: &[u64], #[case] expected: &[u64]) {
        let limits = limits(prices.iter().map(|minor| Money::of_minor(*minor)));
        assert_eq!(limits, expected.iter().map(|units| Money::of_minor(units * 100)).collect_vec());
    }
}
