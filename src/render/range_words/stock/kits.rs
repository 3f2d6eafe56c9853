//! Kits: what they cost, in which order to buy them, what lies in each.

use super::{along, amount, between, money};
use crate::profile::Zone;
use crate::range::stock::{BothWays, Bought, Kit, KitStep, StockedPad};
use crate::render::StockReport;
use crate::render::text::mm;
use crate::supply::Found;
use crate::unit::Money;
use itertools::Itertools;

/// What is left out of the kits.
pub(in crate::render) const WHEN_WANTED: &str =
    "When wanted: by so many of 100 customers, too few to have these pads ahead; below 0.05 they are left out.";

/// How many kinds of pads the drawer has, and how many others there are.
fn kinds(report: &StockReport<'_>) -> (usize, usize) {
    let pads = &report.drawer.pads;
    let kinds = pads.iter().filter(|pad| pad.stock > 0).count();
    (kinds, pads.len() - kinds)
}

/// What the drawer has.
pub(in crate::render) fn to_have(report: &StockReport<'_>) -> String {
    let drawer = report.drawer;
    let (kinds, others) = kinds(report);
    format!(
        "{} pads of {kinds} kinds in {} kits; the other {others} kinds on offer are ordered when wanted. Of 100 pads that are \
         wanted {:.0} are there at once.",
        drawer.stock(),
        drawer.kits.len(),
        drawer.filled() * 100.0
    )
}

/// What it costs, each under its name; a line without a name goes on with the one before.
pub(in crate::render) fn price(report: &StockReport<'_>) -> Vec<(&'static str, String)> {
    let drawer = report.drawer;
    let (bill, singly) = (drawer.bill(), drawer.singly());
    let left: u32 = drawer.kits.iter().flat_map(|kit| &kit.purchase.left_over).sum();
    let packs = match left {
        0 => "the same as if each pad could be had singly at its share of a pack".to_owned(),
        left => format!(
            "{} more than if each pad could be had singly at its share of a pack: {}",
            money(report, bill.less(singly)),
            along(left)
        ),
    };
    let mut told = vec![("price", format!("{}, bought the cheapest way; {packs}", money(report, bill)))];
    if drawer.kits.iter().any(|kit| kit.purchase.found == Found::PadByPad) {
        let words = "so many are needed that not all ways to buy them could be weighed: pads of some kits are bought each \
                     where it costs least by itself";
        told.push(("", words.to_owned()));
    }
    if let Some(loss) = drawer.expected_loss(&report.question.rules) {
        let words = format!("{} {} expected until the next delivery", amount(loss), report.catalogue.shop.currency);
        told.push(("loss", words));
    }
    told
}

/// How the order of the kits was found, and what the kits without a place in it are.
pub(in crate::render) fn in_order(report: &StockReport<'_>) -> (String, Option<String>) {
    let order = &report.drawer.order;
    let errors = order.steps.iter().map(|step| step.won.error).fold(0.0, f64::max);
    let last = order.steps.last().map_or(order.before, |step| step.served);
    let words = format!(
        "won, served: of 100 customers, at once from the drawer or with standard pads; chosen on half of them and counted \
         on the other, ±{:.2} and ±{:.1} at most. With all kits {} where profiles are off. Wherever you stop, what was won is at \
         least 63 % of the most that the money could have won. Prices in {}.",
        errors * 100.0,
        order.before.quote.error.max(last.quote.error) * 100.0,
        between(last.spread, 100.0, 1),
        report.catalogue.shop.currency
    );
    let idle = order.idle.iter().map(|kit| &report.drawer.kits[*kit]);
    let idle = idle.map(|kit| format!("{} ({})", named(report, kit), kit.purchase.bill)).join("; ");
    (words, (!idle.is_empty()).then_some(idle))
}

/// Customers that a kit wins, of 100.
pub(in crate::render) fn won(step: &KitStep) -> String {
    match step.won.value * 100.0 {
        won if won < 0.005 => "<0.01".to_owned(),
        won => format!("{won:.2}"),
    }
}

/// What to buy for a budget, and what that wins.
pub(in crate::render) fn proof(report: &StockReport<'_>, bought: &Bought) -> [(&'static str, String); 2] {
    let names = bought.kits.iter().map(|kit| named(report, &report.drawer.kits[*kit])).join("; ");
    let names = if names.is_empty() { "nothing: no kit is so cheap".to_owned() } else { names };
    let proof = if bought.at_most_times > 1.0 {
        format!("; no choice for the money wins more than {:.2} times as many", bought.at_most_times)
    } else {
        "; no other choice for the money wins more".to_owned()
    };
    let words = format!(
        "{:.2}±{:.2} of 100 customers, for {}{proof}",
        bought.won.value * 100.0,
        bought.won.error * 100.0,
        money(report, bought.spent)
    );
    [("buy", names), ("wins", words)]
}

/// The kits with their numbers, those that win nobody behind the others without one.
pub(in crate::render) fn stocked<'r>(
    report: &'r StockReport<'_>,
) -> impl Iterator<Item = (Option<usize>, &'r Kit<'r>)> {
    let drawer = report.drawer;
    let ordered = drawer.order.steps.iter().zip(1..).map(|(step, number)| (Some(number), step.kit));
    let idle = drawer.order.idle.iter().map(|kit| (None, *kit));
    ordered.chain(idle).map(|(number, kit)| (number, &drawer.kits[kit]))
}

/// What lies in a kit, and what is ordered when it is wanted.
pub(in crate::render) fn contents(report: &StockReport<'_>, kit: &Kit<'_>) -> String {
    let of_kit = &report.drawer.pads[kit.pads.clone()];
    let stocked = of_kit.iter().filter(|pad| pad.stock > 0).collect_vec();
    let others = of_kit.iter().filter(|pad| pad.stock == 0 && pad.used.value > 0.0).collect_vec();
    let used = others.iter().map(|pad| pad.used.value).sum::<f64>() * 100.0;
    let rest = match others.len() {
        _ if used < 0.05 => String::new(),
        count => format!("; {count} more when wanted, by {used:.1}"),
    };
    format!("{}{rest}", by_zone(report, &stocked))
}

/// What a pad costs in either way, and how it is bought.
pub(in crate::render) fn both(pad: &StockedPad<'_>, way: &BothWays) -> String {
    let article = &pad.place.article;
    let shares = article.packs.iter().map(|(pack, share)| format!("{share} in the pack {}", pack.id)).join(", ");
    let bought = match (way.singly, way.in_packs) {
        (_, 0) => "singly".to_owned(),
        (0, _) => "in a pack".to_owned(),
        (singly, in_packs) => format!("{singly} singly and {in_packs} in packs"),
    };
    let single = article.single.unwrap_or_default();
    format!("{} {}, {single} singly, {shares}; here cheapest {bought}", article.kind.0.name(), mm(article.kind.1))
}

/// An amount that a column holds: large ones without their minor units.
pub(in crate::render) fn short(amount: Money) -> String {
    let text = amount.to_string();
    if text.len() < 10 { text } else { text.split('.').next().unwrap_or_default().to_owned() }
}

/// How many pads there are in a kit, those that come along in packs not counted.
pub(in crate::render) fn pads_of(report: &StockReport<'_>, kit: &Kit<'_>) -> u32 {
    report.drawer.pads[kit.pads.clone()].iter().map(|pad| pad.stock).sum()
}

/// A shell by its model's name.
pub(in crate::render) fn named(report: &StockReport<'_>, kit: &Kit<'_>) -> String {
    let (model, shell) = report.of_kit(kit);
    format!("{}, {}", model.name, shell.id)
}

/// `sides 9.5 x2, 13.5; cheeks 30`; sizes where not all of the shell take a pad.
fn by_zone(report: &StockReport<'_>, pads: &[&StockedPad<'_>]) -> String {
    let of_zone = |zone: Zone| {
        let here = pads.iter().filter(|pad| pad.place.article.kind.0 == zone);
        let here = here.sorted_by(|a, b| a.place.article.kind.1.total_cmp(&b.place.article.kind.1));
        let each = here.map(|pad| {
            let sizes = &pad.place.article.sizes;
            let only = if sizes.len() < report.of_pad(&pad.place).1.sizes.len() {
                format!(" ({})", sizes.iter().join("/"))
            } else {
                String::new()
            };
            let times = if pad.stock == 1 { String::new() } else { format!(" x{}", pad.stock) };
            format!("{}{only}{times}", mm(pad.place.article.kind.1))
        });
        let each = each.collect_vec();
        (!each.is_empty()).then(|| format!("{} {}", zone.name(), each.join(", ")))
    };
    Zone::ALL.into_iter().filter_map(of_zone).join("; ")
}
