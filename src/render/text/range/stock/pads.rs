//! One model, pad by pad.

use super::super::super::page::{Page, mm, percent};
use super::kits::both_ways;
use super::{along, money};
use crate::range::stock::{Place, StockedPad};
use crate::render::StockReport;
use crate::supply::Goods;
use itertools::Itertools;

pub(super) fn by_shell(page: &mut Page, report: &StockReport<'_>) {
    let pads = report.drawer.pads.iter().filter(|pad| report.shows(pad.place.model)).collect_vec();
    if pads.is_empty() {
        page.line("  no other pads are on offer");
    }
    for of_shell in pads.chunk_by(|a, b| a.place.shell == b.place.shell) {
        let (_, shell) = report.of_pad(&of_shell[0].place);
        let sizes = shell.sizes.iter().map(|size| &size.label).join(", ");
        page.heading(&format!("SHELL {} ({sizes})", shell.id));
        page.line("  zone       mm  sizes        used by 100   wanted  stock  enough     price");
        of_shell.iter().for_each(|pad| line(page, pad));
        order(page, report, &of_shell[0].place);
    }
    let words = "used by 100: of 100 customers of the whole range, ±: four standard errors; wanted: until the next \
                 delivery, on average; enough: the probability that the stock is; price: singly, or * as an equal share of \
                 a pack. A stock of 0: order it when it is wanted.";
    page.wrapped("     ", words);
    both_ways(page, report);
}

fn line(page: &mut Page, pad: &StockedPad<'_>) {
    let article = &pad.place.article;
    let sizes = article.sizes.iter().join(", ");
    let used = format!("{:.2}±{:.2}", pad.used.value * 100.0, pad.used.error * 100.0);
    let star = if article.single == Some(article.worth) { " " } else { "*" };
    page.line(&format!(
        "  {:<8}{:>5}  {sizes:<12}{used:>12}{:>9.3}{:>7}{:>8}{:>10}{star}",
        article.kind.0.name(),
        mm(article.kind.1),
        pad.wanted,
        pad.stock,
        probably(pad.enough),
        article.worth.to_string()
    ));
}

/// What isn't certain doesn't show as that.
fn probably(enough: f64) -> String {
    if (0.995..1.0).contains(&enough) { ">99 %".to_owned() } else { percent(enough) }
}

fn order(page: &mut Page, report: &StockReport<'_>, place: &Place<'_>) {
    let kits = &report.drawer.kits;
    let Some(kit) = kits.iter().find(|kit| (kit.model, kit.shell) == (place.model, place.shell)) else {
        page.line("  order     nothing ahead of customers");
        return;
    };
    let goods = kit.purchase.order.iter().map(|line| {
        let what = match line.goods {
            Goods::Single(pad) => format!("{} {}", pad.zone.name(), mm(pad.thickness)),
            Goods::Pack(pack) => format!("pack {}", pack.id),
        };
        if line.count == 1 { what } else { format!("{} x {what}", line.count) }
    });
    let left: u32 = kit.purchase.left_over.iter().sum();
    let left = if left == 0 { String::new() } else { format!("; {}", along(left)) };
    let words = format!("{}: {}{left}", goods.collect_vec().join(", "), money(report, kit.purchase.bill));
    page.wrapped("  order     ", &words);
}
