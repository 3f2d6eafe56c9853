//! The words of an order of pads, the same on every kind of page.

use super::text::mm;
use crate::profile::{Payer, Trade};
use crate::supply::{Goods, Kind, Line, Purpose, Stack, Supplied, Way, Wish};
use crate::unit::Money;
use itertools::Itertools;

/// Where nothing need be bought.
pub(super) const NOTHING: &str = "nothing";

/// For which helmet.
pub(super) fn helmet(wish: &Wish<'_>) -> String {
    format!("{} in {}, shell {}", wish.model.name, wish.size.label, wish.shell.id)
}

/// What is wanted, and what is in the helmet now.
pub(super) fn wanted(wish: &Wish<'_>) -> String {
    let instead = |kind: &Kind| match (wish.purpose, wish.mounted.get(kind.0)) {
        (Purpose::Stock, _) | (_, None) => pad(*kind),
        _ if wish.is_mounted(*kind) => format!("{} (in it already)", pad(*kind)),
        (_, Some(now)) => format!("{} (instead of {})", pad(*kind), mm(*now)),
    };
    let purpose = if wish.purpose == Purpose::Stock { ", for the drawer" } else { "" };
    format!("{}{}{purpose}", times(wish), wish.pads.iter().map(instead).join(", "))
}

fn times(wish: &Wish<'_>) -> String {
    if wish.sets == 1 { String::new() } else { format!("{} times ", wish.sets) }
}

/// What the drawer gives.
pub(super) fn from_drawer(way: &Way<'_>, currency: &str) -> Option<String> {
    let words =
        || format!("{} (nothing to pay now; worth {} {currency})", stacks(&way.from_drawer), way.drawer_value());
    (!way.from_drawer.is_empty()).then(words)
}

/// What is left over.
pub(super) fn left_over(way: &Way<'_>, currency: &str) -> Option<String> {
    let words = || format!("{} (into the drawer; worth {} {currency})", stacks(&way.left_over), way.left_value());
    (!way.left_over.is_empty()).then(words)
}

/// The next best way; nothing where nothing is bought.
pub(super) fn next_best(supplied: &Supplied<'_>, currency: &str) -> Option<String> {
    let none = || (!supplied.best.order.is_empty()).then(|| "none: nothing else on offer would do".to_owned());
    let told = |second: &Way<'_>| {
        let more = second.bill.less(supplied.best.bill);
        format!("{}: {} {currency}, {more} more", goods(&second.order), second.bill)
    };
    supplied.second.as_ref().map(told).or_else(none)
}

/// What goes back to the maker, and for how much.
pub(super) fn goes_back(wish: &Wish<'_>, supplied: &Supplied<'_>, currency: &str) -> Option<String> {
    let settlement = &supplied.settlement;
    if settlement.goes_back.is_empty() {
        return None;
    }
    let credit = match wish.model.trade {
        Trade::Exchange { credit } if credit > 0.0 => format!(
            "{} credits {} {currency} for clean ones, {:.0} % of their price",
            wish.model.maker,
            settlement.credit,
            credit * 100.0
        ),
        _ => format!("{} credits nothing for it", wish.model.maker),
    };
    Some(format!("{}: {credit}", stacks(&settlement.goes_back)))
}

/// What comes out and stays in the shop.
pub(super) fn stays(wish: &Wish<'_>, supplied: &Supplied<'_>) -> Option<String> {
    let stays = &supplied.settlement.stays;
    if stays.is_empty() {
        return None;
    }
    let why = match wish.model.trade {
        Trade::Exchange { .. } => "takes only standard pads back",
        Trade::Sale => "takes no pads back",
    };
    let pads = stays.iter().copied().map(pad).join(", ");
    Some(format!("{}{pads}: {} {why}", times(wish), wish.model.maker))
}

/// What the customer pays, and why so much; nothing where no customer is there.
pub(super) fn customer_pays(wish: &Wish<'_>, supplied: &Supplied<'_>, currency: &str) -> Option<String> {
    let settlement = &supplied.settlement;
    let rules = &wish.rules;
    let why = || match rules.paid_by {
        Payer::Shop => "the shop pays for pads".to_owned(),
        Payer::Customer => {
            let parts = [
                (supplied.best.left_over.is_empty(), "not what is left over"),
                (settlement.credit == Money::default(), "less the maker's credit"),
            ];
            let parts = parts.iter().filter(|(is_idle, _)| !is_idle).map(|(_, words)| format!(", {words}")).join("");
            let free = match rules.free_up_to.minor() {
                0 => String::new(),
                _ => format!("; the first {} {currency} are free", rules.free_up_to),
            };
            format!("the pads that go into the helmet{parts}{free}")
        }
    };
    (wish.purpose == Purpose::Helmet).then(|| format!("{} {currency}: {}", settlement.customer, why()))
}

/// What the shop pays or takes in, and what becomes of its drawer.
pub(super) fn shop_pays(supplied: &Supplied<'_>, currency: &str) -> String {
    let shop = supplied.settlement.shop;
    let stock = supplied.best.left_value().against(supplied.best.drawer_value());
    let verb = if shop.minor() > 0 { "takes in" } else { "pays" };
    let drawer = match stock.minor() {
        0 => String::new(),
        1.. => format!("; its drawer is worth {} more", stock.size()),
        _ => format!("; its drawer is worth {} less", stock.size()),
    };
    format!("{verb} {} {currency}{drawer}", shop.size())
}

/// What a line orders: a pad, or a pack with what is in it.
pub(super) fn named(line: &Line<'_>) -> String {
    match line.goods {
        Goods::Single(only) => pad((only.zone, only.thickness)),
        Goods::Pack(pack) => format!("pack {} ({})", pack.id, line.pads.iter().copied().map(pad).join(", ")),
    }
}

/// The lines of an order in a row.
pub(super) fn goods(order: &[Line<'_>]) -> String {
    let times = |line: &Line<'_>| match line.count {
        1 => named(line),
        count => format!("{count} x {}", named(line)),
    };
    order.iter().map(times).join(" and ")
}

/// Pads in a row, with how many of each.
pub(super) fn stacks(stacks: &[Stack]) -> String {
    let times = |stack: &Stack| match stack.count {
        1 => pad(stack.kind),
        count => format!("{count} x {}", pad(stack.kind)),
    };
    stacks.iter().map(times).join(", ")
}

/// A pad by its zone and thickness.
pub(super) fn pad((zone, thickness): Kind) -> String {
    format!("{} {} mm", zone.name(), mm(thickness))
}
