//! In which order to buy: each time the kit that wins most further customers for its price.
//!
//! Customers are in groups by the kits that serve them. What a set of kits wins is what is covered, and each kit costs
//! something: maximum coverage within a budget (Khuller, Moss and Naor 1999). The greedy order by ratio has a bound
//! wherever it is cut: what it has won by then is at least 1 − 1/e, 63 %, of the most that can be won by spending as much
//! as it has spent by then. With a budget that is given it has none, as the next kit may be too dear; so there the search
//! goes on from it.

use crate::unit::Money;
use itertools::Itertools;

/// Customers whom the same kits serve.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Group {
    /// Any of these kits serves them.
    pub kits: Vec<usize>,
    /// How many they are.
    pub customers: u64,
}

/// What to buy within a budget.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WithinBudget {
    /// The kits, ascending.
    pub kits: Vec<usize>,
    /// Customers that they win.
    pub won: u64,
    /// No kits within the budget win more than so many; equal to `won` where these are proved the best.
    pub at_most: u64,
}

/// Kits in the order to buy them, until no further one wins anybody. Of equally good ones the first.
#[must_use]
pub fn buying_order(groups: &[Group], prices: &[Money]) -> Vec<usize> {
    greedy(groups, prices, None)
}

/// The kits that win most customers for at most so much: the best of the greedy choice, the best single kit, and what a
/// search of so many steps finds (branch and bound, which is exact where it comes to its end).
#[must_use]
pub fn within_budget(groups: &[Group], prices: &[Money], budget: Money, steps: u32) -> WithinBudget {
    let greedy = greedy(groups, prices, Some(budget));
    let affordable = prices.iter().positions(|price| *price <= budget).collect_vec();
    let singles = affordable.iter().map(|kit| vec![*kit]);
    let best = singles.chain([greedy]).map(|kits| (won(groups, &kits), kits)).max_by_key(|(won, _)| *won);
    let (won, kits) = best.unwrap_or_default();
    let mut search = Search { groups, prices, best: won, kits, open: 0, steps };
    search.go(&mut Vec::new(), &affordable, budget);
    WithinBudget { won: search.best, at_most: search.best.max(search.open), kits: sorted(search.kits) }
}

/// How many customers some of these kits serve.
#[must_use]
pub fn won(groups: &[Group], kits: &[usize]) -> u64 {
    let served = groups.iter().filter(|group| group.kits.iter().any(|kit| kits.contains(kit)));
    served.map(|group| group.customers).sum()
}

fn sorted(kits: Vec<usize>) -> Vec<usize> {
    kits.into_iter().sorted().collect()
}

/// What each kit wins beyond those that are bought.
fn gains(groups: &[Group], bought: &[usize], kits: usize) -> Vec<u64> {
    let mut gains = vec![0; kits];
    for group in groups.iter().filter(|group| !group.kits.iter().any(|kit| bought.contains(kit))) {
        group.kits.iter().for_each(|kit| gains[*kit] += group.customers);
    }
    gains
}

fn greedy(groups: &[Group], prices: &[Money], budget: Option<Money>) -> Vec<usize> {
    let mut bought = Vec::new();
    let mut spent = Money::default();
    loop {
        let gains = gains(groups, &bought, prices.len());
        let is_open = |kit: &usize| gains[*kit] > 0 && budget.is_none_or(|budget| spent + prices[*kit] <= budget);
        let first = |best: usize, kit: usize| if is_better(&gains, prices, kit, best) { kit } else { best };
        let Some(next) = (0..prices.len()).filter(is_open).reduce(first) else { return bought };
        spent = spent + prices[next];
        bought.push(next);
    }
}

/// Whether a kit wins more for its price than another.
fn is_better(gains: &[u64], prices: &[Money], kit: usize, other: usize) -> bool {
    let crossed = |gain: usize, price: usize| u128::from(gains[gain]) * u128::from(prices[price].minor());
    crossed(kit, other) > crossed(other, kit)
}

/// Branch and bound over the kits.
struct Search<'s> {
    groups: &'s [Group],
    prices: &'s [Money],
    best: u64,
    kits: Vec<usize>,
    /// The largest bound of what was not looked at.
    open: u64,
    /// How many more sets are looked at.
    steps: u32,
}

impl Search<'_> {
    /// Buys some of the open kits in addition, for at most so much.
    fn go(&mut self, bought: &mut Vec<usize>, open: &[usize], left: Money) {
        let base = won(self.groups, bought);
        if base > self.best {
            (self.best, self.kits) = (base, bought.clone());
        }
        let gains = gains(self.groups, bought, self.prices.len());
        let mut open = open.iter().copied().filter(|kit| gains[*kit] > 0 && self.prices[*kit] <= left).collect_vec();
        open.sort_by(|a, b| {
            let by_ratio = is_better(&gains, self.prices, *b, *a).cmp(&is_better(&gains, self.prices, *a, *b));
            by_ratio.then(a.cmp(b))
        });
        let bound = base + self.most(&gains, &open, left);
        if bound <= self.best {
            return;
        }
        let Some((next, rest)) = open.split_first() else { return };
        if self.steps == 0 {
            self.open = self.open.max(bound);
            return;
        }
        self.steps -= 1;
        bought.push(*next);
        self.go(bought, rest, left.less(self.prices[*next]));
        bought.pop();
        self.go(bought, rest, left);
    }

    /// No kits for so much win more in addition: gains only fall as others are bought, and kits could be cut in parts
    /// (Dantzig's bound of the knapsack). `open` is sorted by ratio.
    fn most(&self, gains: &[u64], open: &[usize], mut left: Money) -> u64 {
        let mut most = 0;
        for kit in open {
            let price = self.prices[*kit];
            if price > left {
                let part = u128::from(gains[*kit]) * u128::from(left.minor()) / u128::from(price.minor());
                return most + u64::try_from(part).unwrap_or(u64::MAX);
            }
            most += gains[*kit];
            left = left.less(price);
        }
        most
    }
}
