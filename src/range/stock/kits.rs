//! Kits: the pads of one shell that a drawer should have, what they cost, and whom they serve.

use super::order::{Group, WithinBudget, buying_order, within_budget};
use super::{Figure, StockedPad};
use crate::fit::{AxisTable, Candidate, Quote};
use crate::head::Particles;
use crate::profile::{Axis, FitRules, Pad, Shell};
use crate::range::count::tally;
use crate::range::shelf::{Column, Shelf, taken};
use crate::range::spread::spreads;
use crate::range::tally::{ColumnSet, Pattern, Tally, share};
use crate::supply::{Article, Goods, Purchase, stock_up};
use crate::unit::Money;
use itertools::Itertools;
use std::ops::Range;

/// The pads that the drawer should have of one shell.
#[derive(Debug, Clone, PartialEq)]
pub struct Kit<'a> {
    /// Where its model stands on the shelf.
    pub model: usize,
    /// The shell's place in the model.
    pub shell: usize,
    /// Its pads in the drawer's list, those with a stock of 0 among them.
    pub pads: Range<usize>,
    /// The cheapest way to buy it.
    pub purchase: Purchase<'a>,
    /// What it would cost if every pad could be had on its own for the least that it costs anywhere, an equal share of a
    /// pack.
    pub singly: Money,
    /// Its pads that come singly and in packs.
    pub both_ways: Vec<BothWays>,
}

/// A pad that can be had in two ways, and is in the kit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct BothWays {
    /// Its place in the drawer's list.
    pub pad: usize,
    /// How many are bought singly.
    pub singly: u32,
    /// How many come in packs.
    pub in_packs: u32,
}

/// Kits in the order to buy them.
#[derive(Debug, Clone, PartialEq)]
pub struct KitOrder {
    /// Customers who are served at once without any kit, a share.
    pub before: Figure,
    /// One kit after the other.
    pub steps: Vec<KitStep>,
    /// Kits that win nobody beyond the others: they only leave more to choose from.
    pub idle: Vec<usize>,
    /// What to buy for a budget.
    pub budget: Option<Bought>,
}

/// One more kit.
#[derive(Debug, Clone, PartialEq)]
pub struct KitStep {
    /// Its place in the list of kits.
    pub kit: usize,
    /// Customers that it wins beyond those before, a share.
    pub won: Quote,
    /// Customers who are served at once with it and all before, a share.
    pub served: Figure,
    /// What it and all before cost.
    pub spent: Money,
}

/// Kits for a budget.
#[derive(Debug, Clone, PartialEq)]
pub struct Bought {
    /// At most so much is spent.
    pub budget: Money,
    /// The places of the kits.
    pub kits: Vec<usize>,
    /// What they cost.
    pub spent: Money,
    /// Customers that they win, a share.
    pub won: Quote,
    /// For the customers who chose: no kits within the budget win more than so many times what these do; 1 where they are
    /// proved the best.
    pub at_most_times: f64,
}

/// Sets of kits that the search for a budget looks at.
const STEPS: u32 = 20_000;

/// The kits of all shells of which something should be in the drawer.
pub(super) fn kits<'a>(shelf: &Shelf<'a>, pads: &[StockedPad<'a>]) -> Vec<Kit<'a>> {
    let mut kits = Vec::new();
    let mut first = 0;
    for of_shell in pads.chunk_by(|a, b| (a.place.model, a.place.shell) == (b.place.model, b.place.shell)) {
        let range = first..first + of_shell.len();
        first = range.end;
        if of_shell.iter().all(|pad| pad.stock == 0) {
            continue;
        }
        let (model, shell) = (of_shell[0].place.model, of_shell[0].place.shell);
        let articles = of_shell.iter().map(|pad| pad.place.article.clone()).collect_vec();
        let need = of_shell.iter().map(|pad| pad.stock).collect_vec();
        let purchase = stock_up(&shelf.columns[model].model.shells[shell], &articles, &need);
        let singly = of_shell.iter().map(|pad| pad.place.article.worth * pad.stock).sum();
        let both_ways = range.clone().filter_map(|at| both_ways(at, &pads[at], &purchase)).collect();
        kits.push(Kit { model, shell, pads: range, purchase, singly, both_ways });
    }
    kits
}

fn both_ways(at: usize, pad: &StockedPad<'_>, purchase: &Purchase<'_>) -> Option<BothWays> {
    let article = &pad.place.article;
    if pad.stock == 0 || article.single.is_none() || article.packs.is_empty() {
        return None;
    }
    let bought = |is_way: fn(&Goods<'_>) -> bool| -> u32 {
        let lines = purchase.order.iter().filter(|line| is_way(&line.goods) && line.pads.contains(&article.kind));
        lines.map(|line| line.count).sum()
    };
    let singly = bought(|goods| matches!(goods, Goods::Single(_)));
    Some(BothWays { pad: at, singly, in_packs: bought(|goods| matches!(goods, Goods::Pack(_))) })
}

impl Kit<'_> {
    /// Its pads and what else the drawer has with it: those that come along in packs.
    fn has(&self, at: usize, pads: &[StockedPad<'_>]) -> bool {
        pads[at].stock > 0 || self.purchase.left_over[at - self.pads.start] > 0
    }
}

/// Which kit to buy first, chosen on one half of the heads and judged on the other.
pub(super) fn order(
    shelf: &Shelf<'_>,
    heads: &Particles,
    (kits, pads): (&[Kit<'_>], &[StockedPad<'_>]),
    (budget, seed): (Option<Money>, u64),
) -> KitOrder {
    let shelf = in_drawer(shelf, kits, pads);
    let tally = tally(&shelf, &taken(heads, shelf.rules.outline), None);
    let prices = kits.iter().map(|kit| kit.purchase.bill).collect_vec();
    let groups = groups(&tally);
    let ordered = buying_order(&groups, &prices);
    let judge = Judge::of(&tally);
    let firsts = (0..=ordered.len()).map(|count| columns(&ordered[..count])).collect_vec();
    let spreads = spreads(&shelf, heads, seed, |tally| {
        firsts.iter().map(|kits| tally.share(|pattern| is_served(pattern, kits)).value).collect()
    });
    let figure = |count: usize| Figure { quote: judge.served(&firsts[count]), spread: spreads[count] };
    let steps = ordered.iter().enumerate().map(|(at, kit)| KitStep {
        kit: *kit,
        won: judge.won(&firsts[at], &firsts[at + 1]),
        served: figure(at + 1),
        spent: ordered[..=at].iter().map(|kit| prices[*kit]).sum(),
    });
    let bought = budget.map(|budget| {
        let WithinBudget { kits, won, at_most } = within_budget(&groups, &prices, budget, STEPS);
        let spent = kits.iter().map(|kit| prices[*kit]).sum();
        #[expect(clippy::cast_precision_loss, reason = "numbers of heads")]
        let at_most_times = if at_most == won { 1.0 } else { at_most as f64 / won.max(1) as f64 };
        Bought { budget, won: judge.won(&firsts[0], &columns(&kits)), kits, spent, at_most_times }
    });
    KitOrder {
        before: figure(0),
        steps: steps.collect(),
        idle: (0..kits.len()).filter(|kit| !ordered.contains(kit)).collect(),
        budget: bought,
    }
}

/// A column for each kit, its shell with what the drawer then has, and behind them one for each shell without a kit.
fn in_drawer<'a>(shelf: &Shelf<'a>, kits: &[Kit<'_>], pads: &[StockedPad<'_>]) -> Shelf<'a> {
    let with_kit = kits.iter().map(|kit| {
        let articles = kit.pads.clone().filter(|at| kit.has(*at, pads)).map(|at| &pads[at].place.article).collect_vec();
        let column = &shelf.columns[kit.model];
        let shell = with_pads(&column.model.shells[kit.shell], |pad, shell| has(&articles, pad, shell));
        only(column, kit.shell, &shell, &shelf.rules)
    });
    let all = shelf.columns.iter().enumerate();
    let all = all.flat_map(|(model, column)| (0..column.model.shells.len()).map(move |shell| (model, shell)));
    let bare = all.filter(|place| !kits.iter().any(|kit| (kit.model, kit.shell) == *place));
    let bare = bare.map(|(model, at)| {
        let column = &shelf.columns[model];
        only(column, at, &with_pads(&column.model.shells[at], |_, _| false), &shelf.rules)
    });
    Shelf::new(with_kit.chain(bare).collect(), shelf.rules)
}

fn has(articles: &[&Article<'_>], pad: &Pad, shell: &Shell) -> bool {
    articles.iter().any(|article| article.is(pad, shell))
}

/// A shell with some of its pads.
pub(super) fn with_pads(shell: &Shell, keep: impl Fn(&Pad, &Shell) -> bool) -> Shell {
    let pads = shell.pads.iter().filter(|pad| keep(pad, shell)).cloned().collect();
    Shell { pads, ..shell.clone() }
}

/// The sizes of one shell, with the pads that it has here.
fn only<'a>(column: &Column<'a>, at: usize, shell: &Shell, rules: &FitRules) -> Column<'a> {
    let sizes = column.candidates.iter().filter(|candidate| candidate.shell_index == at);
    Column { model: column.model, candidates: sizes.map(|candidate| fitted(candidate, shell, rules)).collect() }
}

/// A size with the pads that its shell has here.
pub(super) fn fitted<'a>(candidate: &Candidate<'a>, shell: &Shell, rules: &FitRules) -> Candidate<'a> {
    let axes = Axis::ALL.map(|axis| AxisTable::of(axis, candidate.model, shell, candidate.size, rules.bands(axis)));
    Candidate { axes, ..candidate.clone() }
}

/// Customers whom only pads serve, by the kits that do; of the half that chooses.
fn groups(tally: &Tally) -> Vec<Group> {
    let needy = tally.halves().filter(|(pattern, _)| pattern.standard.is_empty() && !pattern.on_offer.is_empty());
    needy.map(|(pattern, [customers, _])| Group { kits: pattern.on_offer.iter().collect(), customers }).collect()
}

fn columns(kits: &[usize]) -> ColumnSet {
    kits.iter().copied().collect()
}

fn is_served(pattern: Pattern<'_>, kits: &ColumnSet) -> bool {
    !pattern.standard.is_empty() || pattern.on_offer.has_any(kits.columns())
}

/// The half that judges.
struct Judge<'t> {
    patterns: Vec<(Pattern<'t>, u64)>,
    heads: u64,
}

impl<'t> Judge<'t> {
    fn of(tally: &'t Tally) -> Self {
        let patterns = tally.halves().map(|(pattern, [_, odd])| (pattern, odd)).collect_vec();
        let heads = patterns.iter().map(|(_, heads)| heads).sum();
        Self { patterns, heads }
    }

    fn count(&self, is_so: impl Fn(Pattern<'_>) -> bool) -> u64 {
        self.patterns.iter().filter(|(pattern, _)| is_so(*pattern)).map(|(_, heads)| heads).sum()
    }

    fn served(&self, kits: &ColumnSet) -> Quote {
        share(self.count(|pattern| is_served(pattern, kits)), self.heads)
    }

    /// More kits never lose anybody.
    fn won(&self, before: &ColumnSet, after: &ColumnSet) -> Quote {
        share(self.count(|pattern| is_served(pattern, after) && !is_served(pattern, before)), self.heads)
    }
}
