//! The cheapest way and the next one, what goes back to the maker, and who pays.

use super::offers::{Kind, offers, worth};
use super::order::{Stack, Way};
use super::{Purpose, Wish, cover, in_order};
use crate::profile::{Payer, Trade};
use crate::unit::{Balance, Money};
use itertools::Itertools;

/// The answer to a wish.
#[derive(Debug, Clone, PartialEq)]
pub struct Supplied<'a> {
    /// The cheapest way.
    pub best: Way<'a>,
    /// The best other way; `None` where there is none.
    pub second: Option<Way<'a>>,
    /// What happens to the pads that come out, and who pays.
    pub settlement: Settlement,
}

/// What happens to the pads that come out, and who pays.
#[derive(Debug, Clone, PartialEq)]
pub struct Settlement {
    /// Standard pads that go back to the maker, with what he credits for them.
    pub goes_back: Vec<Stack>,
    /// Pads that come out and stay.
    pub stays: Vec<Kind>,
    /// What the maker credits in all.
    pub credit: Money,
    /// What the customer pays.
    pub customer: Money,
    /// What the shop has afterwards that it had not before, in money alone; less than 0 where it pays.
    pub shop: Balance,
}

/// Finds the cheapest way to get what is wanted, and settles it. `None` where something is neither on offer nor in the
/// drawer (see [`Wish::missing`]), or where so many pads are wanted, and sold in so many ways, that not all of them can be
/// weighed: some tens of thousands are.
///
/// The credit of the maker is the same whichever way is taken, so the least bill is the least cost.
#[must_use]
pub fn supply<'a>(wish: &Wish<'a>) -> Option<Supplied<'a>> {
    let offers = offers(wish.shell);
    let wanted = wish.wanted();
    let kinds = wanted.iter().map(|(kind, _)| *kind).collect_vec();
    let need = wanted.iter().map(|(kind, count)| count.saturating_sub(wish.in_drawer(*kind))).collect_vec();
    let items = offers.iter().map(|offer| offer.item(&kinds, wish.size)).collect_vec();
    let counts = cover::cheapest(&items, &need).ok()?;
    let second = cover::runner_up(&items, &need, &counts).ok()?.map(|counts| Way::of(wish, &offers, &counts));
    let best = Way::of(wish, &offers, &counts);
    let credit = |(kind, count): (Kind, u32)| {
        let each = worth(&offers, wish.size, kind).unwrap_or_default();
        match wish.model.trade {
            Trade::Exchange { credit } => Stack { kind, count, value: each.share(credit) * count },
            Trade::Sale => Stack { kind, count, value: Money::default() },
        }
    };
    let takes_back = matches!(wish.model.trade, Trade::Exchange { .. });
    let (back, stays): (Vec<_>, Vec<_>) =
        wish.comes_out().into_iter().partition(|(kind, _)| takes_back && wish.is_standard(*kind));
    let goes_back = in_order(back.into_iter().map(credit).collect());
    let stays = stays.into_iter().map(|(kind, _)| kind).collect();
    Some(Supplied { settlement: settle(wish, &best, goes_back, stays), best, second })
}

/// A customer pays for what goes into the helmet, not for what is left over: that stays in the shop's drawer, and is
/// worth to the shop what it paid for it.
fn settle(wish: &Wish<'_>, way: &Way<'_>, goes_back: Vec<Stack>, stays: Vec<Kind>) -> Settlement {
    let credit: Money = goes_back.iter().map(|stack| stack.value).sum();
    let in_helmet = (way.used + way.drawer_value()).less(credit);
    let customer = match (wish.purpose, wish.rules.paid_by) {
        (Purpose::Helmet, Payer::Customer) => in_helmet.less(wish.rules.free_up_to),
        (Purpose::Stock, _) | (_, Payer::Shop) => Money::default(),
    };
    Settlement { shop: (customer + credit).against(way.bill), goes_back, stays, credit, customer }
}
