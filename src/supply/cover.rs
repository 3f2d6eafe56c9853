//! The cheapest purchases that cover what is needed: a small integer program, solved exactly.
//!
//! Given offers, each with a price and what it holds of each kind, and how many of each kind are needed: how many of
//! each offer to buy, so that the price is the least; of equal ones with the fewest pads in all, then the fewest
//! purchases, then more of the earlier offers. (Multiset multicover; NP-hard in general, tiny here: a shell has at most
//! 35 pads, and each is in one offer.)
//!
//! Branch and bound over the offers in their order. The bound is a feasible solution of the linear program's dual: each
//! kind is worth at most the least that any offer asks for one useful pad.

use itertools::Itertools;

/// Something that can be bought any number of times.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Item {
    /// Price, minor units.
    pub(super) price: u64,
    /// Pads in it, needed or not.
    pub(super) pads: usize,
    /// How many of each kind it holds.
    pub(super) holds: Vec<u32>,
}

/// How many of each item to buy; `None` where something needed is in no item.
pub(super) fn cheapest(items: &[Item], need: &[u32]) -> Option<Vec<u32>> {
    best_within(items, need, &vec![u32::MAX; items.len()]).map(|found| found.counts)
}

/// The best way that is another one: not the best with something superfluous on top. `None` where there is no other.
pub(super) fn runner_up(items: &[Item], need: &[u32], best: &[u32]) -> Option<Vec<u32>> {
    // Whatever buys at least as much of everything as the best way is that way with more on top.
    let bought = best.iter().positions(|count| *count > 0);
    let others = bought.filter_map(|at| {
        let mut most = vec![u32::MAX; items.len()];
        most[at] = best[at] - 1;
        best_within(items, need, &most)
    });
    others.min_by(|a, b| a.weight.cmp(&b.weight).then_with(|| b.counts.cmp(&a.counts))).map(|found| found.counts)
}

struct Found {
    weight: u128,
    counts: Vec<u32>,
}

struct Search<'s> {
    items: &'s [Item],
    most: &'s [u32],
    counts: Vec<u32>,
    best: Option<Found>,
}

fn best_within(items: &[Item], need: &[u32], most: &[u32]) -> Option<Found> {
    let mut search = Search { items, most, counts: vec![0; items.len()], best: None };
    search.from(0, need, 0);
    search.best
}

impl Item {
    /// Price before pads before purchases in one number: pads bought beyond need are pads bought, less what is needed.
    fn weight(&self) -> u128 {
        (u128::from(self.price) << 40) + ((self.pads as u128) << 20) + 1
    }

    /// How many needed pads one of it brings.
    fn useful(&self, need: &[u32]) -> u128 {
        self.holds.iter().zip(need).map(|(holds, need)| u128::from(*holds.min(need))).sum()
    }
}

impl Search<'_> {
    /// Buys of the items from `at` on what is still needed.
    fn from(&mut self, at: usize, need: &[u32], spent: u128) {
        if need.iter().all(|need| *need == 0) {
            if self.best.as_ref().is_none_or(|best| spent < best.weight) {
                self.best = Some(Found { weight: spent, counts: self.counts.clone() });
            }
            return;
        }
        let Some(least) = self.least(at, need) else { return };
        if self.best.as_ref().is_some_and(|best| spent + least >= best.weight) {
            return;
        }
        let item = &self.items[at];
        let enough = item.holds.iter().zip(need).filter(|(holds, _)| **holds > 0);
        let enough = enough.map(|(holds, need)| need.div_ceil(*holds)).max().unwrap_or(0).min(self.most[at]);
        // More of an earlier offer comes first, so that of equal ways it stays.
        for count in (0..=enough).rev() {
            let rest =
                item.holds.iter().zip(need).map(|(holds, need)| need.saturating_sub(holds * count)).collect_vec();
            self.counts[at] = count;
            self.from(at + 1, &rest, spent + item.weight() * u128::from(count));
        }
        self.counts[at] = 0;
    }

    /// No way to buy the need from these items weighs less; `None` where there is no way.
    fn least(&self, at: usize, need: &[u32]) -> Option<u128> {
        let left = self.items.iter().zip(self.most).skip(at).filter(|(_, most)| **most > 0).map(|(item, _)| item);
        let asked = left.map(|item| (item, item.useful(need))).filter(|(_, useful)| *useful > 0).collect_vec();
        let mut least = 0;
        for (kind, count) in need.iter().enumerate().filter(|(_, count)| **count > 0) {
            let holding = asked.iter().filter(|(item, _)| item.holds[kind] > 0);
            least += u128::from(*count) * holding.map(|(item, useful)| item.weight() / useful).min()?;
        }
        Some(least)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    fn item(price: u64, pads: usize, holds: &[u32]) -> Item {
        Item { price, pads, holds: holds.to_vec() }
    }

    /// All ways up to a number of each item, the best first: what the search must find, found without thinking.
    fn by_force(items: &[Item], need: &[u32]) -> Vec<(u128, Vec<u32>)> {
        let most = *need.iter().max().unwrap();
        let all = items.iter().map(|_| 0..=most).multi_cartesian_product();
        let covers = |counts: &Vec<u32>| {
            let bought = |kind: usize| items.iter().zip(counts).map(|(item, count)| item.holds[kind] * count).sum();
            need.iter().enumerate().all(|(kind, need)| *need <= bought(kind))
        };
        let weighed = all.filter(covers).map(|counts| {
            let weight: u128 = items.iter().zip(&counts).map(|(item, count)| item.weight() * u128::from(*count)).sum();
            (weight, counts)
        });
        weighed.sorted_by(|a, b| a.0.cmp(&b.0).then_with(|| b.1.cmp(&a.1))).collect()
    }

    #[rstest]
    #[case::a_pack_that_holds_both(&[item(22, 1, &[1, 0]), item(19, 1, &[0, 1]), item(29, 2, &[1, 1])], &[1, 1], &[0, 0, 1])]
    #[case::a_pack_for_one(&[item(22, 1, &[1, 0]), item(29, 2, &[1, 1])], &[1, 0], &[1, 0])]
    #[case::dearer_alone(&[item(30, 1, &[1]), item(29, 4, &[1])], &[1], &[0, 1])]
    #[case::as_dear_with_fewer_pads(&[item(29, 2, &[1]), item(29, 1, &[1])], &[1], &[0, 1])]
    #[case::as_dear_with_fewer_purchases(&[item(10, 1, &[1, 0]), item(10, 1, &[0, 1]), item(20, 2, &[1, 1])], &[1, 1], &[0, 0, 1])]
    #[case::as_dear_in_every_way(&[item(10, 1, &[1]), item(10, 1, &[1])], &[3], &[3, 0])]
    #[case::packs_for_some_and_singles_for_the_rest(&[item(20, 1, &[1, 0]), item(29, 2, &[1, 1])], &[3, 2], &[1, 2])]
    #[case::nothing_needed(&[item(20, 1, &[1])], &[0], &[0])]
    fn the_cheapest_way_is_found(#[case] items: &[Item], #[case] need: &[u32], #[case] counts: &[u32]) {
        assert_eq!(cheapest(items, need).unwrap(), counts);
    }

    #[test]
    fn what_nobody_sells_can_not_be_bought() {
        assert_eq!(cheapest(&[item(20, 1, &[1, 0])], &[1, 1]), None);
        assert_eq!(runner_up(&[item(20, 1, &[1])], &[2], &[2]), None);
    }

    /// Numbers without a pattern: the high half of a multiplication (Knuth's constant).
    fn dice(seed: u64) -> impl FnMut(u64) -> u64 {
        let mut state = seed;
        move |sides| {
            state =
                state.wrapping_add(1).wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (state >> 33) % sides
        }
    }

    #[test]
    fn the_search_agrees_with_looking_at_every_way() {
        let (mut solved, mut seconds) = (0, 0);
        for seed in 0..600 {
            let mut die = dice(seed);
            let (kinds, count) = (1 + die(4) as usize, 1 + die(5) as usize);
            // Few different prices, so that ties come up; some offers for nothing.
            let items = (0..count)
                .map(|_| {
                    let holds = (0..kinds).map(|_| die(3).saturating_sub(1) as u32 * (1 + die(2) as u32)).collect_vec();
                    item(die(6) * 5, holds.iter().sum::<u32>() as usize + die(3) as usize, &holds)
                })
                .filter(|item| item.pads > 0)
                .collect_vec();
            let need = (0..kinds).map(|_| die(4) as u32).collect_vec();
            let all = by_force(&items, &need);
            let found = cheapest(&items, &need);
            assert_eq!(found.as_ref(), all.first().map(|(_, counts)| counts), "seed {seed}: {items:?} {need:?}");
            let Some(best) = found else { continue };
            solved += 1;
            let is_more = |counts: &Vec<u32>| counts.iter().zip(&best).all(|(count, best)| count >= best);
            let second = all.iter().find(|(_, counts)| !is_more(counts)).map(|(_, counts)| counts);
            assert_eq!(runner_up(&items, &need, &best).as_ref(), second, "seed {seed}: {items:?} {need:?}");
            seconds += usize::from(second.is_some());
        }
        assert!(solved > 200 && seconds > 100, "{solved} {seconds}");
    }
}
