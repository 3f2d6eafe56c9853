//! How few models serve how many, for people.

use super::figures::{between, customers, of_hundred};
use crate::range::{Customers, Fewer, FewerWanted, Pads, Subset, Worth};
use crate::render::text::page::Page;
use crate::unit::plain;
use itertools::Itertools;
use unicode_width::UnicodeWidthStr;

/// The best subsets as a page.
#[must_use]
pub fn range_keep(asked: &Customers<'_>, wanted: &FewerWanted, fewer: &Fewer<'_>, cautions: &[&str]) -> String {
    let mut page = Page::default();
    let words = Words { wanted, fewer };
    customers(&mut page, asked);
    words.curve(&mut page);
    words.smallest(&mut page);
    words.left_out(&mut page);
    page.cautions(cautions);
    page.finish()
}

struct Words<'w, 'a> {
    wanted: &'w FewerWanted,
    fewer: &'w Fewer<'a>,
}

impl Words<'_, '_> {
    fn curve(&self, page: &mut Page) {
        let fewer = self.fewer;
        page.heading("HOW MANY MODELS SERVE HOW MANY, of 100 customers");
        page.line("  models  with the pads     standard     of those");
        page.line("               on offer         pads       served  comes in");
        let enough = fewer.curve.iter().position(|subset| subset.serves_all).unwrap_or_default();
        let mut before: &[usize] = &[];
        for (at, subset) in fewer.curve.iter().enumerate().take(enough + 1) {
            self.line(page, at, &self.moved(before, subset));
            before = &subset.columns;
        }
        if enough + 1 < fewer.curve.len() {
            self.line(page, fewer.curve.len() - 1, "all others, for nobody more");
        }
        let words = format!(
            "Of those served: of 100 customers whom all models serve {}. Each line is the best choice of so many models{}, on \
             one half of the customers; the figures are those of the other half. Of models that do \
             equally well the first by its id is told. ±: sampling error, four standard errors.",
            self.pads(),
            if fewer.curve.iter().all(|subset| subset.at_most_more <= 0.0) {
                ", with proof"
            } else {
                " that was found, and where that isn't proven the line says how much more another might serve"
            }
        );
        page.wrapped("  ", &words);
    }

    fn line(&self, page: &mut Page, at: usize, moved: &str) {
        let subset = &self.fewer.curve[at];
        let [on_offer, standard, of_served] = [subset.on_offer, subset.standard, subset.of_served].map(of_hundred);
        let mark = if at == self.fewer.smallest { ">" } else { " " };
        let first = format!("{mark} {:>6}{on_offer:>15}{standard:>13}{of_served:>13}  ", subset.columns.len());
        page.hanging(&first, first.width(), moved);
    }

    /// With which pads a customer counts as served.
    fn pads(&self) -> &'static str {
        match self.wanted.pads {
            Pads::OnOffer => "with the pads on offer",
            Pads::Standard => "with the standard pads",
        }
    }

    /// What comes in and what goes out against the line before.
    fn moved(&self, before: &[usize], subset: &Subset) -> String {
        let come = subset.columns.iter().filter(|column| !before.contains(column)).map(|column| self.name(*column));
        let go = before.iter().filter(|column| !subset.columns.contains(column)).map(|column| self.name(*column));
        let mut words = come.collect_vec().join(", ");
        let go = go.collect_vec().join(", ");
        if !go.is_empty() {
            words = format!("{words} (out: {go})");
        }
        if subset.at_most_more > 0.0 {
            words = format!("{words} (another choice: at most {:.2} more)", subset.at_most_more * 100.0);
        }
        words
    }

    fn smallest(&self, page: &mut Page) {
        let fewer = self.fewer;
        let subset = &fewer.curve[fewer.smallest];
        page.heading(&format!("THE SMALLEST RANGE  {} of {} models", subset.columns.len(), fewer.shelf.columns.len()));
        let wanted = plain((self.wanted.keep * 10_000.0).round() / 100.0);
        let found = if fewer.is_smallest { "No smaller one" } else { "No smaller one that was found" };
        let [all, stay, share] = fewer.spreads.map(between);
        let words = format!(
            "{found} serves {wanted} of 100 customers whom all models serve {}, on the half that chose; on the other half this \
             one serves {} of them. Where profiles are off as far as they say, it is {share} in nine of ten cases: {stay} of 100 \
             customers instead of {all}.",
            self.pads(),
            of_hundred(subset.of_served),
        );
        page.wrapped("  ", &words);
        if let (Pads::OnOffer, Some(whole)) = (self.wanted.pads, fewer.curve.last()) {
            let words = format!(
                "As they come, with the standard pads, its helmets fit {} of 100 customers and those of the whole range {}: the \
                 others need a swap. With --pads standard those count who need none.",
                of_hundred(subset.standard),
                of_hundred(whole.standard)
            );
            page.wrapped("  ", &words);
        }
        if !self.wanted.always.is_empty() {
            let always = self.wanted.always.iter().map(|column| self.name(*column)).collect_vec().join(", ");
            page.wrapped("  ", &format!("Asked to stay: {always}."));
        }
        page.line("");
        page.line("  stays                      nobody else here serves, of 100 customers");
        self.list(page, &fewer.stay);
    }

    fn left_out(&self, page: &mut Page) {
        page.heading("LEFT OUT");
        if self.fewer.go.is_empty() {
            page.wrapped("  ", "No model: without any of them too few are served.");
            return;
        }
        page.line("  goes                       would add, of 100 customers");
        self.list(page, &self.fewer.go);
    }

    /// The one that counts most first.
    fn list(&self, page: &mut Page, worth: &[Worth]) {
        let sorted =
            worth.iter().sorted_by(|a, b| b.share.value.total_cmp(&a.share.value).then(a.column.cmp(&b.column)));
        for Worth { column, share } in sorted {
            let name = self.name(*column);
            let fill = " ".repeat(25_usize.saturating_sub(name.width()));
            page.line(&format!("  {name}{fill}  {}", of_hundred(*share)));
        }
    }

    fn name(&self, column: usize) -> &str {
        &self.fewer.shelf.columns[column].model.name
    }
}
