//! How few models serve how many, for people.

use super::customers;
use crate::range::{Customers, Fewer, FewerWanted, Worth};
use crate::render::range_words::figures::of_hundred;
use crate::render::range_words::keep::{ALL_STAY, KeepWords, by_worth};
use crate::render::text::page::Page;
use unicode_width::UnicodeWidthStr;

/// The best subsets as a page.
#[must_use]
pub fn range_keep(asked: &Customers<'_>, wanted: &FewerWanted, fewer: &Fewer<'_>, cautions: &[&str]) -> String {
    let mut page = Page::default();
    let words = KeepWords { wanted, fewer };
    customers(&mut page, asked);
    curve(&mut page, &words);
    smallest(&mut page, &words);
    left_out(&mut page, &words);
    page.cautions(cautions);
    page.finish()
}

fn curve(page: &mut Page, words: &KeepWords<'_, '_>) {
    page.heading("HOW MANY MODELS SERVE HOW MANY, of 100 customers");
    page.line("  models  with the pads     standard     of those");
    page.line("               on offer         pads       served  comes in");
    for at in words.told() {
        let subset = &words.fewer.curve[at];
        let [on_offer, standard, of_served] = [subset.on_offer, subset.standard, subset.of_served].map(of_hundred);
        let mark = if at == words.fewer.smallest { ">" } else { " " };
        let first = format!("{mark} {:>6}{on_offer:>15}{standard:>13}{of_served:>13}  ", subset.columns.len());
        page.hanging(&first, first.width(), &words.moved(at));
    }
    page.wrapped("  ", &words.of_curve());
}

fn smallest(page: &mut Page, words: &KeepWords<'_, '_>) {
    page.heading(&format!("THE SMALLEST RANGE  {}", words.count()));
    let more = [words.as_they_come(), words.always()];
    std::iter::once(words.serves()).chain(more.into_iter().flatten()).for_each(|words| page.wrapped("  ", &words));
    page.line("");
    page.line("  stays                      nobody else here serves, of 100 customers");
    list(page, words, &words.fewer.stay);
}

fn left_out(page: &mut Page, words: &KeepWords<'_, '_>) {
    page.heading("LEFT OUT");
    if words.fewer.go.is_empty() {
        page.wrapped("  ", ALL_STAY);
        return;
    }
    page.line("  goes                       would add, of 100 customers");
    list(page, words, &words.fewer.go);
}

fn list(page: &mut Page, words: &KeepWords<'_, '_>, worth: &[Worth]) {
    for Worth { column, share } in by_worth(worth) {
        let name = words.name(*column);
        let fill = " ".repeat(25_usize.saturating_sub(name.width()));
        page.line(&format!("  {name}{fill}  {}", of_hundred(*share)));
    }
}
