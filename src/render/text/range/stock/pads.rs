//! One model, pad by pad.

use super::facts;
use super::kits::both_ways;
use crate::range::stock::StockedPad;
use crate::render::StockReport;
use crate::render::range_words::stock::{NO_PADS, PADS, of_shell, order, probably, used, worth};
use crate::render::text::page::{Page, mm};
use itertools::Itertools;

pub(super) fn by_shell(page: &mut Page, report: &StockReport<'_>) {
    let pads = report.drawer.pads.iter().filter(|pad| report.shows(pad.place.model)).collect_vec();
    if pads.is_empty() {
        page.line(&format!("  {NO_PADS}"));
    }
    for pads in pads.chunk_by(|a, b| a.place.shell == b.place.shell) {
        page.heading(&format!("SHELL {}", of_shell(report, &pads[0].place)));
        page.line("  zone       mm  sizes        used by 100   wanted  stock  enough     price");
        pads.iter().for_each(|pad| line(page, pad));
        facts(page, &[("order", order(report, &pads[0].place))]);
    }
    page.wrapped("     ", PADS);
    both_ways(page, report);
}

fn line(page: &mut Page, pad: &StockedPad<'_>) {
    let article = &pad.place.article;
    let sizes = article.sizes.iter().join(", ");
    page.line(&format!(
        "  {:<8}{:>5}  {sizes:<12}{:>12}{:>9.3}{:>7}{:>8}{:>11}",
        article.kind.0.name(),
        mm(article.kind.1),
        used(pad),
        pad.wanted,
        pad.stock,
        probably(pad.enough),
        worth(pad)
    ));
}
