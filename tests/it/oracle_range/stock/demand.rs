//! How many to have.

use lidladder::profile::StockingRules;
use lidladder::range::stock::{Demand, Losses, Wanted, enough, expected_loss, least_loss};
use proptest::prelude::*;
use rstest::rstest;

/// Cumulated probabilities of Poisson numbers as printed in standard tables, to four digits.
#[rstest]
#[case(2.0, 0, &[0.1353, 0.4060, 0.6767, 0.8571, 0.9473])]
#[case(4.0, 0, &[0.0183, 0.0916, 0.2381, 0.4335, 0.6288, 0.7851, 0.8893])]
#[case(5.0, 5, &[0.6160])]
fn the_law_is_that_of_the_tables(#[case] mean: f64, #[case] first: u32, #[case] table: &[f64]) {
    for (count, printed) in (first..).zip(table) {
        let computed = Wanted::of(mean).at_most(count);
        assert!((computed - printed).abs() < 0.000_051, "F({count}) of {mean}: {computed}");
    }
}

/// Any demand with a few possible numbers.
struct Table(&'static [(u32, f64)]);

impl Demand for Table {
    fn mean(&self) -> f64 {
        self.0.iter().map(|(count, share)| f64::from(*count) * share).sum()
    }

    fn at_most(&self, count: u32) -> f64 {
        self.0.iter().filter(|(known, _)| *known <= count).map(|(_, share)| share).sum()
    }
}

/// Hillier and Lieberman's newspapers, from memory: 9, 10 or 11 are wanted with 0.3, 0.4, 0.3; they cost 1.50, sell for
/// 2.50, and go back for 0.50. So one that is missing loses 1.00, one left over 1.00.
#[test]
fn the_best_number_of_newspapers_is_ten() {
    let demand = Table(&[(9, 0.3), (10, 0.4), (11, 0.3)]);
    let losses = Losses { missing: 2.50 - 1.50, left_over: 1.50 - 0.50 };
    let profit = |stock| demand.mean() * (2.50 - 1.50) - expected_loss(&demand, stock, losses);
    assert_eq!(least_loss(&demand, losses), Some(10));
    for (stock, expected) in [(9, 9.00), (10, 9.40), (11, 9.00)] {
        assert!((profit(stock) - expected).abs() < 1e-12, "{stock}: {}", profit(stock));
    }
}

/// Poisson(4), 4 for one that is missing, 1 for one left over: six, at 2.97717 (summed by hand).
#[test]
fn four_are_wanted_and_six_are_best() {
    let losses = Losses { missing: 4.0, left_over: 1.0 };
    assert_eq!(least_loss(&Wanted::of(4.0), losses), Some(6));
    let loss = expected_loss(&Wanted::of(4.0), 6, losses);
    assert!((loss - 2.97717).abs() < 0.000_005, "{loss}");
}

#[rstest]
#[case::nothing_is_wanted(0.0, 0.95, 0)]
#[case::rarely(0.05, 0.95, 0)]
#[case::just_too_often(0.052, 0.95, 1)]
#[case::very_much(500_000.0, 0.5, 500_000)]
fn the_smallest_stock_that_is_enough(#[case] mean: f64, #[case] level: f64, #[case] stock: u32) {
    assert_eq!(enough(&Wanted::of(mean), level), stock);
}

#[test]
fn without_a_loss_by_leftovers_no_stock_is_too_large() {
    assert_eq!(least_loss(&Wanted::of(1.0), Losses { missing: 1.0, left_over: 0.0 }), None);
    assert_eq!(least_loss(&Wanted::of(1.0), Losses { missing: 0.0, left_over: 0.0 }), Some(0));
    let rules = StockingRules {
        customers_per_week: 1.0,
        delivery_days: 7.0,
        service_level: 0.9,
        margin: Some(0.35),
        left_over_loss: 0.1,
    };
    assert_eq!(rules.losses(20.0), Some(Losses { missing: 7.0, left_over: 2.0 }));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Probabilities and losses summed number by number, from e⁻ᵐ on.
    #[test]
    fn sums_say_the_same(mean in 0.001_f64..40.0, missing in 0.1_f64..10.0, left_over in 0.1_f64..10.0) {
        let mut shares = vec![(-mean).exp()];
        for count in 1..200_u32 {
            shares.push(shares[count as usize - 1] * mean / f64::from(count));
        }
        let loss = |stock: u32| -> f64 {
            (0..).zip(&shares).map(|(wanted, share)| {
                let short = f64::from(wanted) - f64::from(stock);
                share * if short > 0.0 { missing * short } else { -left_over * short }
            }).sum()
        };
        let demand = Wanted::of(mean);
        let losses = Losses { missing, left_over };
        let best = least_loss(&demand, losses).unwrap();
        for stock in [0, 1, best, best + 1, best + 7] {
            prop_assert!((expected_loss(&demand, stock, losses) - loss(stock)).abs() < 1e-9 * (1.0 + mean * missing));
        }
        for other in 0..120 {
            prop_assert!(loss(best) <= loss(other) + 1e-9, "{other} loses less than {best}");
        }
    }

    #[test]
    fn a_higher_level_never_needs_fewer(mean in 0.0_f64..50.0, low in 0.5_f64..0.9999, high in 0.5_f64..0.9999) {
        let (low, high) = (low.min(high), low.max(high));
        let demand = Wanted::of(mean);
        let (few, many) = (enough(&demand, low), enough(&demand, high));
        prop_assert!(few <= many);
        prop_assert!(demand.at_most(many) >= high);
        prop_assert!(many == 0 || demand.at_most(many - 1) < high, "one fewer is enough");
    }
}
