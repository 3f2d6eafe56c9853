//! The cheapest purchases that cover what is needed: a small integer program, solved exactly.
//!
//! Given offers, each with a price and what it holds of each kind, and how many of each kind are needed: how many of
//! each offer to buy, so that the price is the least; of equal ones with the fewest pads in all, then the fewest
//! purchases, then, pad by pad, from the earlier offer. (Multiset multicover; NP-hard in general, tiny here: most pads are
//! sold in one way only.)
//!
//! What only one offer holds is bought of it. For the rest every amount that may still be needed is a state, and the
//! least price from there on is found once (dynamic programming): whatever is bought, some offer covers the first open
//! kind.

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

/// Why there is no answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Unsolved {
    /// Something needed is in no item.
    Missing,
    /// So much is needed, in so many ways, that not all of them can be weighed.
    TooManyWays,
}

/// More states are not looked at. Five zones that can each be had in several ways, eight times, are nearly as many.
const MOST_STATES: usize = 1 << 16;

/// How many of each item to buy.
pub(super) fn cheapest(items: &[Item], need: &[u32]) -> Result<Vec<u32>, Unsolved> {
    without(items, need, None).map(|found| found.counts)
}

/// The best way that is another one: not the best with something superfluous on top. `None` where there is no other.
pub(super) fn runner_up(items: &[Item], need: &[u32], best: &[u32]) -> Result<Option<Vec<u32>>, Unsolved> {
    let mut second: Option<Found> = None;
    // Whatever buys at least as much of everything as the best way is that way with more on top. So another way buys
    // less of something: so many, and for the rest none of it.
    let fewer = best.iter().enumerate().flat_map(|(at, most)| (0..*most).map(move |count| (at, count)));
    for (at, count) in fewer {
        let rest = items[at].leaves(need, count);
        match without(items, &rest, Some(at)) {
            Err(Unsolved::Missing) => {}
            Err(unsolved) => return Err(unsolved),
            Ok(mut found) => {
                found.counts[at] += count;
                found.weight += items[at].weight() * u128::from(count);
                if second.as_ref().is_none_or(|second| found.weight < second.weight) {
                    second = Some(found);
                }
            }
        }
    }
    Ok(second.map(|found| found.counts))
}

struct Found {
    weight: u128,
    counts: Vec<u32>,
}

impl Item {
    /// Price before pads before purchases in one number: pads left over are pads bought, less what is needed.
    fn weight(&self) -> u128 {
        (u128::from(self.price) << 40) + ((self.pads as u128) << 20) + 1
    }

    /// What is still needed after so many of it were bought.
    fn leaves(&self, need: &[u32], count: u32) -> Vec<u32> {
        self.holds.iter().zip(need).map(|(holds, need)| need.saturating_sub(holds.saturating_mul(count))).collect()
    }
}

/// The best way that buys none of one item.
fn without(items: &[Item], need: &[u32], banned: Option<usize>) -> Result<Found, Unsolved> {
    let mut counts = vec![0; items.len()];
    let mut rest = need.to_vec();
    for kind in 0..need.len() {
        let mut holding = items.iter().positions(|item| item.holds[kind] > 0).filter(|at| Some(*at) != banned);
        match (rest[kind], holding.next(), holding.next()) {
            (1.., None, _) => return Err(Unsolved::Missing),
            (open @ 1.., Some(only), None) => {
                let count = open.div_ceil(items[only].holds[kind]);
                counts[only] += count;
                rest = items[only].leaves(&rest, count);
            }
            _ => {}
        }
    }
    let mut states = States::new(items, &rest, banned)?;
    states.least(&rest).ok_or(Unsolved::Missing)?;
    while let Some(at) = states.choice(&rest) {
        counts[at] += 1;
        rest = items[at].leaves(&rest, 1);
    }
    let weight = items.iter().zip(&counts).map(|(item, count)| item.weight() * u128::from(*count)).sum();
    Ok(Found { weight, counts })
}

/// Every amount that may still be needed, with the least that it weighs from there on.
struct States<'s> {
    items: &'s [Item],
    banned: Option<usize>,
    /// One more than is needed of each kind, for numbering the states.
    radix: Vec<usize>,
    known: Vec<Option<State>>,
}

#[derive(Debug, Clone, Copy)]
struct State {
    /// `None` where it can't be bought.
    weight: Option<u128>,
    /// What to buy next.
    choice: Option<usize>,
}

impl<'s> States<'s> {
    fn new(items: &'s [Item], need: &[u32], banned: Option<usize>) -> Result<Self, Unsolved> {
        let radix = need.iter().map(|need| *need as usize + 1).collect_vec();
        let count = radix.iter().try_fold(1_usize, |count, radix| count.checked_mul(*radix));
        let count = count.filter(|count| *count <= MOST_STATES).ok_or(Unsolved::TooManyWays)?;
        Ok(Self { items, banned, radix, known: vec![None; count] })
    }

    /// The least that covers this; `None` where nothing does.
    fn least(&mut self, rest: &[u32]) -> Option<u128> {
        let number = self.number(rest);
        if let Some(state) = self.known[number] {
            return state.weight;
        }
        let Some(open) = rest.iter().position(|need| *need > 0) else {
            self.known[number] = Some(State { weight: Some(0), choice: None });
            return Some(0);
        };
        let mut best = State { weight: None, choice: None };
        for (at, item) in self.items.iter().enumerate() {
            if item.holds[open] == 0 || Some(at) == self.banned {
                continue;
            }
            let weight = self.least(&item.leaves(rest, 1)).map(|behind| behind + item.weight());
            if weight.is_some() && best.weight.is_none_or(|known| weight < Some(known)) {
                best = State { weight, choice: Some(at) };
            }
        }
        self.known[number] = Some(best);
        best.weight
    }

    fn choice(&self, rest: &[u32]) -> Option<usize> {
        self.known[self.number(rest)].and_then(|state| state.choice)
    }

    fn number(&self, rest: &[u32]) -> usize {
        rest.iter().zip(&self.radix).fold(0, |number, (need, radix)| number * radix + *need as usize)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    fn item(price: u64, pads: usize, holds: &[u32]) -> Item {
        Item { price, pads, holds: holds.to_vec() }
    }

    fn weight(items: &[Item], counts: &[u32]) -> u128 {
        items.iter().zip(counts).map(|(item, count)| item.weight() * u128::from(*count)).sum()
    }

    #[test]
    fn what_is_too_much_is_refused_at_once() {
        // Seventeen kinds, each singly and in a pack with the next one, twenty times each.
        let single = |at: usize| item(20, 1, &(0..17).map(|kind| u32::from(kind == at)).collect_vec());
        let pair = |at: usize| item(30, 2, &(0..17).map(|kind| u32::from(kind == at || kind == at + 1)).collect_vec());
        let items = (0..17).map(single).chain((0..16).map(pair)).collect_vec();
        assert_eq!(cheapest(&items, &[20; 17]), Err(Unsolved::TooManyWays));
        let way = cheapest(&items[..17], &[20; 17]).unwrap();
        assert_eq!(way, [20; 17], "what is sold in one way only is never too much");
    }

    /// All ways up to a number of each item, the best first: what the search must find, found without thinking.
    fn by_force(items: &[Item], need: &[u32]) -> Vec<(u128, Vec<u32>)> {
        let most = *need.iter().max().unwrap();
        let all = items.iter().map(|_| 0..=most).multi_cartesian_product();
        let covers = |counts: &Vec<u32>| {
            let bought = |kind: usize| items.iter().zip(counts).map(|(item, count)| item.holds[kind] * count).sum();
            need.iter().enumerate().all(|(kind, need)| *need <= bought(kind))
        };
        let weighed = all.filter(covers).map(|counts| (weight(items, &counts), counts));
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
        assert_eq!(cheapest(&[item(20, 1, &[1, 0])], &[1, 1]), Err(Unsolved::Missing));
        assert_eq!(runner_up(&[item(20, 1, &[1])], &[2], &[2]), Ok(None));
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
            let told = found.as_ref().ok().map(|counts| weight(&items, counts));
            assert_eq!(told, all.first().map(|(weight, _)| *weight), "seed {seed}: {items:?} {need:?}");
            let Ok(best) = found else { continue };
            solved += 1;
            let is_more = |counts: &Vec<u32>| counts.iter().zip(&best).all(|(count, best)| count >= best);
            let second = all.iter().find(|(_, counts)| !is_more(counts)).map(|(weight, _)| *weight);
            let other = runner_up(&items, &need, &best).unwrap();
            assert!(other.as_ref().is_none_or(|other| !is_more(other)), "seed {seed}: the best one with more on top");
            let told = other.map(|counts| weight(&items, &counts));
            assert_eq!(told, second, "seed {seed}: {items:?} {need:?}");
            seconds += usize::from(second.is_some());
        }
        assert!(solved > 200 && seconds > 100, "{solved} {seconds}");
    }
}
