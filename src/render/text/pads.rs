//! What to order for a pad set, for people.

use super::page::{Page, fixed, mm};
use crate::catalogue::Catalogue;
use crate::profile::{Payer, Trade};
use crate::supply::{Goods, Kind, Line, Purpose, Settlement, Stack, Supplied, Way, Wish};
use crate::unit::Money;
use itertools::Itertools;

/// The order as a page.
#[must_use]
pub fn pads(catalogue: &Catalogue, wish: &Wish<'_>, supplied: &Supplied<'_>, cautions: &[&str]) -> String {
    let mut page = Page::default();
    let currency = catalogue.shop.currency.as_str();
    wanted(&mut page, wish);
    order(&mut page, wish, &supplied.best, currency);
    if let Some(second) = &supplied.second {
        let more = second.bill.less(supplied.best.bill);
        let words = format!("{}: {} {currency}, {more} more", goods(&second.order), second.bill);
        page.wrapped("  next best ", &words);
    } else if !supplied.best.order.is_empty() {
        page.line("  next best none: nothing else on offer would do");
    }
    out(&mut page, wish, &supplied.settlement, currency);
    payers(&mut page, wish, supplied, currency);
    page.cautions(cautions);
    page.finish()
}

fn wanted(page: &mut Page, wish: &Wish<'_>) {
    page.heading(&format!("PADS  {} in {}, shell {}", wish.model.name, wish.size.label, wish.shell.id));
    let times = if wish.sets == 1 { String::new() } else { format!("{} times ", wish.sets) };
    let instead = |kind: &Kind| match (wish.purpose, wish.mounted.get(kind.0)) {
        (Purpose::Stock, _) | (_, None) => pad(*kind),
        _ if wish.is_mounted(*kind) => format!("{} (in it already)", pad(*kind)),
        (_, Some(now)) => format!("{} (instead of {})", pad(*kind), mm(*now)),
    };
    let purpose = if wish.purpose == Purpose::Stock { ", for the drawer" } else { "" };
    page.wrapped("  wanted    ", &format!("{times}{}{purpose}", wish.pads.iter().map(instead).join(", ")));
}

fn order(page: &mut Page, wish: &Wish<'_>, way: &Way<'_>, currency: &str) {
    page.heading(&format!("ORDER from {}", wish.model.maker));
    for line in &way.order {
        let price = line.price * line.count;
        page.line(&format!("  {:>2} x {}{:>10}", line.count, fixed(&named(line), 56), price.to_string()));
    }
    match way.order.len() {
        0 => page.line("  nothing"),
        1 => page.line(&format!("  prices in {currency}")),
        _ => page.line(&format!("  {}{:>10}", fixed(&format!("in all, {currency}"), 61), way.bill.to_string())),
    }
    if !way.from_drawer.is_empty() {
        let words =
            format!("{} (nothing to pay now; worth {} {currency})", stacks(&way.from_drawer), way.drawer_value());
        page.wrapped("  drawer    ", &words);
    }
    if !way.left_over.is_empty() {
        let words = format!("{} (into the drawer; worth {} {currency})", stacks(&way.left_over), way.left_value());
        page.wrapped("  left over ", &words);
    }
}

fn out(page: &mut Page, wish: &Wish<'_>, settlement: &Settlement, currency: &str) {
    if settlement.goes_back.is_empty() && settlement.stays.is_empty() {
        return;
    }
    page.heading("WHAT COMES OUT");
    if !settlement.goes_back.is_empty() {
        let credit = match wish.model.trade {
            Trade::Exchange { credit } if credit > 0.0 => format!(
                "{} credits {} {currency} for clean ones, {:.0} % of their price",
                wish.model.maker,
                settlement.credit,
                credit * 100.0
            ),
            _ => format!("{} credits nothing for it", wish.model.maker),
        };
        page.wrapped("  goes back ", &format!("{}: {credit}", stacks(&settlement.goes_back)));
    }
    if !settlement.stays.is_empty() {
        let times = if wish.sets == 1 { String::new() } else { format!("{} times ", wish.sets) };
        let why = match wish.model.trade {
            Trade::Exchange { .. } => "takes only standard pads back",
            Trade::Sale => "takes no pads back",
        };
        let pads = settlement.stays.iter().copied().map(pad).join(", ");
        page.wrapped("  stays     ", &format!("{times}{pads}: {} {why}", wish.model.maker));
    }
}

fn payers(page: &mut Page, wish: &Wish<'_>, supplied: &Supplied<'_>, currency: &str) {
    let settlement = &supplied.settlement;
    page.heading("WHO PAYS");
    if wish.purpose == Purpose::Helmet {
        let rules = &wish.rules;
        let why = match rules.paid_by {
            Payer::Shop => "the shop pays for pads".to_owned(),
            Payer::Customer => {
                let parts = [
                    (supplied.best.left_over.is_empty(), "not what is left over"),
                    (settlement.credit == Money::default(), "less the maker's credit"),
                ];
                let parts =
                    parts.iter().filter(|(is_idle, _)| !is_idle).map(|(_, words)| format!(", {words}")).join("");
                let free = match rules.free_up_to.minor() {
                    0 => String::new(),
                    _ => format!("; the first {} {currency} are free", rules.free_up_to),
                };
                format!("the pads that go into the helmet{parts}{free}")
            }
        };
        page.wrapped("  customer  ", &format!("{} {currency}: {why}", settlement.customer));
    }
    let stock = supplied.best.left_value().against(supplied.best.drawer_value());
    let verb = if settlement.shop.minor() > 0 { "takes in" } else { "pays" };
    let drawer = match stock.minor() {
        0 => String::new(),
        1.. => format!("; its drawer is worth {} more", stock.size()),
        _ => format!("; its drawer is worth {} less", stock.size()),
    };
    page.wrapped("  shop      ", &format!("{verb} {} {currency}{drawer}", settlement.shop.size()));
}

/// What a line orders: a pad, or a pack with what is in it.
fn named(line: &Line<'_>) -> String {
    match line.goods {
        Goods::Single(only) => pad((only.zone, only.thickness)),
        Goods::Pack(pack) => format!("pack {} ({})", pack.id, line.pads.iter().copied().map(pad).join(", ")),
    }
}

fn goods(order: &[Line<'_>]) -> String {
    let times = |line: &Line<'_>| match line.count {
        1 => named(line),
        count => format!("{count} x {}", named(line)),
    };
    order.iter().map(times).join(" and ")
}

fn stacks(stacks: &[Stack]) -> String {
    let times = |stack: &Stack| match stack.count {
        1 => pad(stack.kind),
        count => format!("{count} x {}", pad(stack.kind)),
    };
    stacks.iter().map(times).join(", ")
}

fn pad((zone, thickness): Kind) -> String {
    format!("{} {} mm", zone.name(), mm(thickness))
}
