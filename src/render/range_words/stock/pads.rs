//! One model, pad by pad.

use super::{along, money};
use crate::range::stock::{Place, StockedPad};
use crate::render::StockReport;
use crate::render::text::{mm, percent};
use crate::supply::Goods;
use itertools::Itertools;

/// A shell with its sizes.
pub(in crate::render) fn of_shell(report: &StockReport<'_>, place: &Place<'_>) -> String {
    let (_, shell) = report.of_pad(place);
    format!("{} ({})", shell.id, shell.sizes.iter().map(|size| &size.label).join(", "))
}

/// Of 100 customers so many take it.
pub(in crate::render) fn used(pad: &StockedPad<'_>) -> String {
    format!("{:.2}±{:.2}", pad.used.value * 100.0, pad.used.error * 100.0)
}

/// What isn't certain doesn't show as that.
pub(in crate::render) fn probably(enough: f64) -> String {
    if (0.995..1.0).contains(&enough) { ">99 %".to_owned() } else { percent(enough) }
}

/// What it costs, with a star where that is a share of a pack.
pub(in crate::render) fn worth(pad: &StockedPad<'_>) -> String {
    let article = &pad.place.article;
    format!("{}{}", article.worth, if article.single == Some(article.worth) { " " } else { "*" })
}

/// What to order for a shell; nothing where no pad of it is to be there.
pub(in crate::render) fn order(report: &StockReport<'_>, place: &Place<'_>) -> String {
    let kits = &report.drawer.kits;
    let Some(kit) = kits.iter().find(|kit| (kit.model, kit.shell) == (place.model, place.shell)) else {
        return "nothing ahead of customers".to_owned();
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
    format!("{}: {}{left}", goods.collect_vec().join(", "), money(report, kit.purchase.bill))
}
