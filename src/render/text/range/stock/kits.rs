//! Kits: what they cost, in which order to buy them, what lies in each.

use super::super::super::page::{Page, fixed, mm};
use super::{along, amount, between, money};
use crate::fit::Quote;
use crate::profile::Zone;
use crate::range::stock::{BothWays, Kit, StockedPad};
use crate::render::StockReport;
use crate::supply::Found;
use crate::unit::Money;
use itertools::Itertools;

pub(super) fn total(page: &mut Page, report: &StockReport<'_>) {
    let drawer = report.drawer;
    page.heading("THE DRAWER");
    let kinds = drawer.pads.iter().filter(|pad| pad.stock > 0).count();
    let words = format!(
        "{} pads of {kinds} kinds in {} kits; the other {} kinds on offer are ordered when wanted. Of 100 pads that are \
         wanted {:.0} are there at once.",
        drawer.stock(),
        drawer.kits.len(),
        drawer.pads.len() - kinds,
        drawer.filled() * 100.0
    );
    page.wrapped("  to have   ", &words);
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
    page.wrapped("  price     ", &format!("{}, bought the cheapest way; {packs}", money(report, bill)));
    if drawer.kits.iter().any(|kit| kit.purchase.found == Found::PadByPad) {
        let words = "so many are needed that not all ways to buy them could be weighed: pads of some kits are bought each \
                     where it costs least by itself";
        page.wrapped("            ", words);
    }
    if let Some(loss) = drawer.expected_loss(&report.question.rules) {
        let words = format!("{} {} expected until the next delivery", amount(loss), report.catalogue.shop.currency);
        page.wrapped("  loss      ", &words);
    }
}

pub(super) fn in_order(page: &mut Page, report: &StockReport<'_>) {
    let order = &report.drawer.order;
    page.heading("KITS, in the order to buy them");
    page.line("     shell                              pads     price     spent    won   served");
    let line = |number: &str, name: &str, figures: &str, served: Quote| {
        format!("{number:>4} {}{figures:>34}{:>9}", fixed(name, 32), format!("{:.1}", served.value * 100.0))
    };
    page.line(&line("", "with the standard pads alone", "", order.before.quote));
    for (at, step) in order.steps.iter().enumerate() {
        let kit = &report.drawer.kits[step.kit];
        let (bill, spent) = (short(kit.purchase.bill), short(step.spent));
        let won = match step.won.value * 100.0 {
            won if won < 0.005 => "<0.01".to_owned(),
            won => format!("{won:.2}"),
        };
        let figures = format!("{:>7}{bill:>10}{spent:>10}{won:>7}", pads(report, kit));
        page.line(&line(&format!("{}.", at + 1), &named(report, kit), &figures, step.served.quote));
    }
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
    page.wrapped("     ", &words);
    if !order.idle.is_empty() {
        let names = order.idle.iter().map(|kit| &report.drawer.kits[*kit]);
        let words = names.map(|kit| format!("{} ({})", named(report, kit), kit.purchase.bill)).join("; ");
        page.wrapped("  win nobody more, but leave a wider choice: ", "");
        page.wrapped("     ", &words);
    }
}

pub(super) fn budget(page: &mut Page, report: &StockReport<'_>) {
    let Some(bought) = &report.drawer.order.budget else { return };
    page.heading(&format!("FOR {}", money(report, bought.budget)));
    let names = bought.kits.iter().map(|kit| named(report, &report.drawer.kits[*kit])).join("; ");
    page.wrapped("  buy       ", if names.is_empty() { "nothing: no kit is so cheap" } else { &names });
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
    page.wrapped("  wins      ", &words);
}

pub(super) fn contents(page: &mut Page, report: &StockReport<'_>) {
    let drawer = report.drawer;
    if drawer.kits.is_empty() {
        return;
    }
    page.heading("WHAT LIES IN THEM: mm, one of each where nothing else is said");
    let ordered = drawer.order.steps.iter().map(|step| step.kit).enumerate();
    let ordered = ordered.map(|(at, kit)| (format!("{:>3}. ", at + 1), kit));
    for (number, kit) in ordered.chain(drawer.order.idle.iter().map(|kit| ("   - ".to_owned(), *kit))) {
        let kit = &drawer.kits[kit];
        let of_kit = &drawer.pads[kit.pads.clone()];
        let stocked = of_kit.iter().filter(|pad| pad.stock > 0).collect_vec();
        let others = of_kit.iter().filter(|pad| pad.stock == 0 && pad.used.value > 0.0).collect_vec();
        let used = others.iter().map(|pad| pad.used.value).sum::<f64>() * 100.0;
        let rest = match others.len() {
            _ if used < 0.05 => String::new(),
            count => format!("; {count} more when wanted, by {used:.1}"),
        };
        page.wrapped(&number, &format!("{}: {}{rest}", named(report, kit), by_zone(report, &stocked)));
    }
    page.wrapped(
        "     ",
        "When wanted: by so many of 100 customers, too few to have these pads ahead; below 0.05 they are left out.",
    );
}

pub(super) fn both_ways(page: &mut Page, report: &StockReport<'_>) {
    let kits =
        report.drawer.kits.iter().filter(|kit| report.shows(kit.model) && !kit.both_ways.is_empty()).collect_vec();
    if kits.is_empty() {
        return;
    }
    page.heading("SOLD SINGLY AND IN PACKS");
    for kit in kits {
        let each = kit.both_ways.iter().map(|way| both(&report.drawer.pads[way.pad], way));
        for words in each {
            page.wrapped("  - ", &format!("{}: {words}", named(report, kit)));
        }
    }
}

/// What a pad costs in either way, and how it is bought.
fn both(pad: &StockedPad<'_>, way: &BothWays) -> String {
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
fn short(amount: Money) -> String {
    let text = amount.to_string();
    if text.len() < 10 { text } else { text.split('.').next().unwrap_or_default().to_owned() }
}

/// How many pads there are in a kit, those that come along in packs not counted.
fn pads(report: &StockReport<'_>, kit: &Kit<'_>) -> u32 {
    report.drawer.pads[kit.pads.clone()].iter().map(|pad| pad.stock).sum()
}

/// A shell by its model's name.
pub(super) fn named(report: &StockReport<'_>, kit: &Kit<'_>) -> String {
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
