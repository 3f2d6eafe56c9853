//! A sheet for a maker, to be sent as it is.

use crate::catalogue::Catalogue;
use crate::head::Population;
use crate::range::{Complaints, MakerSheet};
use crate::render::range_words::figures::share;
use crate::render::range_words::maker::{
    COMPLAINTS, CORRECT, OF_PACKS, OF_PAIRS, PACKS, SHARES, SheetWords, notes, rarer, said,
};
use crate::render::text::audit::thousands;
use crate::render::text::page::Page;

/// The sheet as a page; with complaints where a journal was given, and how many of its lines could not be read.
#[must_use]
pub fn range_maker(
    catalogue: &Catalogue,
    population: &Population,
    sheet: &MakerSheet<'_>,
    complaints: Option<(&Complaints<'_>, usize)>,
) -> String {
    let mut page = Page::default();
    let words = SheetWords { catalogue, sheet };
    page.heading(&format!("FOR {}", words.maker().to_uppercase()));
    page.wrapped("  ", &format!("From: {}", catalogue.shop.name));
    page.wrapped("  ", &words.about(population));
    page.wrapped("  ", &words.today());
    lines(&mut page, &words);
    packs(&mut page, &words);
    pairs(&mut page, &words);
    if let Some((complaints, unread)) = complaints {
        heard(&mut page, complaints, unread);
    }
    page.heading("HOW WE KNOW");
    page.wrapped("  ", &words.how());
    page.wrapped("  ", CORRECT);
    page.finish()
}

fn lines(page: &mut Page, words: &SheetWords<'_, '_>) {
    let sheet = words.sheet;
    page.heading("WHAT WOULD WIN CUSTOMERS, as a share of all customers");
    if sheet.lines.is_empty() {
        page.wrapped("  ", &words.nothing());
        return;
    }
    page.line("          for you       for us");
    for (at, line) in sheet.lines.iter().enumerate() {
        let gain = line.gain;
        let first = format!("{:>3}. {:>12} {:>12}  ", at + 1, share(gain.for_maker), share(gain.for_shop));
        page.wrapped(&first, &words.line(line));
    }
    let gain = sheet.together;
    let first = format!("     {:>12} {:>12}  ", share(gain.for_maker), share(gain.for_shop));
    page.wrapped(&first, "all of these together");
    if let Some(words) = words.minor() {
        page.wrapped("  ", &words);
    }
    page.wrapped("  ", SHARES);
}

fn packs(page: &mut Page, words: &SheetWords<'_, '_>) {
    let packs = words.packs();
    if packs.is_empty() {
        return;
    }
    page.heading("PACKS, by 100 customers whom the model fits");
    packs.iter().take(PACKS).for_each(|pack| page.wrapped("  - ", &words.pack(pack)));
    if let Some(words) = words.other_packs() {
        page.wrapped("  ", &words);
    }
    page.wrapped("  ", OF_PACKS);
}

fn pairs(page: &mut Page, words: &SheetWords<'_, '_>) {
    if words.sheet.pairs.is_empty() {
        return;
    }
    page.heading("SINGLE PADS THAT ARE NEEDED TOGETHER, by 100 customers whom the model fits");
    words.sheet.pairs.iter().for_each(|pair| page.wrapped("  - ", &words.pair(pair)));
    page.wrapped("  ", OF_PAIRS);
}

fn heard(page: &mut Page, complaints: &Complaints<'_>, unread: usize) {
    page.heading(&format!("WHAT CUSTOMERS SAID, in {} tries of your helmets", thousands(complaints.tries)));
    complaints.told.iter().take(COMPLAINTS).for_each(|complaint| page.wrapped("  - ", &said(complaint)));
    if let Some(words) = rarer(complaints) {
        page.wrapped("  ", &words);
    }
    page.wrapped("  ", &notes(complaints, unread));
}
