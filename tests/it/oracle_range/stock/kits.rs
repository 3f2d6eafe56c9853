//! In which order to buy, against every choice.

use itertools::Itertools;
use lidladder::range::stock::{Group, buying_order, within_budget, won};
use lidladder::unit::Money;
use proptest::prelude::*;

fn group(kits: &[usize], customers: u64) -> Group {
    Group { kits: kits.to_vec(), customers }
}

fn cost(kits: &[usize], prices: &[Money]) -> Money {
    kits.iter().map(|kit| prices[*kit]).sum()
}

/// The most that any kits within a budget win.
fn most(groups: &[Group], prices: &[Money], budget: Money) -> u64 {
    let all = (0..prices.len()).powerset().filter(|kits| cost(kits, prices) <= budget);
    all.map(|kits| won(groups, &kits)).max().unwrap_or(0)
}

/// By its ratio the small kit comes first, and then the large one is too dear (the textbook case).
#[test]
fn a_small_bargain_does_not_stand_in_the_way() {
    let groups = [group(&[0], 2), group(&[1], 100)];
    let prices = [1, 100].map(Money::of_minor);
    assert_eq!(buying_order(&groups, &prices), [0, 1]);
    let best = within_budget(&groups, &prices, Money::of_minor(100), 1);
    assert_eq!((best.kits, best.won, best.at_most), (vec![1], 100, 100));
}

#[test]
fn what_wins_nobody_is_not_bought() {
    let groups = [group(&[0, 1], 5), group(&[2], 1)];
    let prices = [2, 3, 0].map(Money::of_minor);
    assert_eq!(buying_order(&groups, &prices), [2, 0], "the free one first; the second of two equal kits never");
    assert_eq!(within_budget(&groups, &prices, Money::of_minor(1), 100).kits, [2]);
    assert_eq!(within_budget(&[], &prices, Money::of_minor(9), 100).won, 0);
}

fn case() -> impl Strategy<Value = (Vec<Group>, Vec<Money>, Money)> {
    let kits = 1..8_usize;
    kits.prop_flat_map(|kits| {
        let serving = prop::collection::btree_set(0..kits, 1..=kits);
        let groups = prop::collection::vec((serving, 1..50_u64), 0..12);
        let prices = prop::collection::vec(0..40_u64, kits);
        (groups, prices, 0..120_u64)
    })
    .prop_map(|(groups, prices, budget)| {
        let groups = groups.into_iter().map(|(kits, customers)| group(&kits.into_iter().collect_vec(), customers));
        (groups.collect(), prices.into_iter().map(Money::of_minor).collect(), Money::of_minor(budget))
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn for_a_budget_the_search_finds_the_best((groups, prices, budget) in case()) {
        let found = within_budget(&groups, &prices, budget, 10_000);
        prop_assert_eq!(found.won, most(&groups, &prices, budget));
        prop_assert_eq!((found.at_most, won(&groups, &found.kits)), (found.won, found.won));
        prop_assert!(cost(&found.kits, &prices) <= budget);
    }

    /// Cut short it still keeps the budget, and its bound still holds.
    #[test]
    fn a_search_that_is_cut_short_says_so((groups, prices, budget) in case(), steps in 0..4_u32) {
        let found = within_budget(&groups, &prices, budget, steps);
        let most = most(&groups, &prices, budget);
        prop_assert!(found.won <= most && most <= found.at_most);
        prop_assert!(cost(&found.kits, &prices) <= budget);
        // Half of 1 − 1/e is what the better of the greedy choice and the best single kit can't fall short of.
        #[expect(clippy::cast_precision_loss, reason = "small numbers")]
        let is_kept = found.won as f64 >= 0.316 * most as f64;
        prop_assert!(is_kept);
    }

    /// Each next kit wins most for its price, and wherever the order is cut, 1 − 1/e of the best for that money is won.
    #[test]
    fn the_order_is_greedy_and_keeps_its_bound((groups, prices, _) in case()) {
        let order = buying_order(&groups, &prices);
        let everything = won(&groups, &(0..prices.len()).collect_vec());
        prop_assert_eq!(won(&groups, &order), everything, "it ends when nothing is left to win");
        for cut in 0..order.len() {
            let (bought, next) = (&order[..cut], order[cut]);
            let gain = |kit: usize| {
                won(&groups, &[bought, &[kit]].concat()) - won(&groups, bought)
            };
            for other in (0..prices.len()).filter(|kit| !bought.contains(kit)) {
                prop_assert!(gain(other) * prices[next].minor() <= gain(next) * prices[other].minor());
            }
            let bought = &order[..=cut];
            let spent = cost(bought, &prices);
            if spent == Money::default() {
                // Whoever has spent nothing may not have all yet that is free.
                continue;
            }
            let most = most(&groups, &prices, spent);
            #[expect(clippy::cast_precision_loss, reason = "small numbers")]
            let is_kept = won(&groups, bought) as f64 >= 0.632 * most as f64;
            prop_assert!(is_kept, "{} of {}", won(&groups, bought), most);
        }
    }
}
