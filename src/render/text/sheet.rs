//! A measuring sheet for a letter: two pages of paper at most.

use super::page::Page;
use crate::away::{READINGS, Sheet};
use crate::render::sheet_words::{BEFORE, NEEDED, ROUNDS, SEND, SLIPS, TITLE, exactness, how, name, tool};

/// The sheet as a page.
#[must_use]
pub fn sheet(sheet: &Sheet<'_>) -> String {
    let mut page = Page::default();
    page.heading(&TITLE.to_uppercase());
    page.wrapped("  from ", sheet.shop);
    page.heading("YOU NEED");
    page.wrapped("  ", NEEDED);
    page.heading("BEFORE");
    BEFORE.iter().for_each(|line| page.wrapped("  - ", line));
    page.heading("MEASURE, in this order");
    for (number, spot) in (1..).zip(&sheet.spots) {
        page.wrapped(
            &format!("  {number}. "),
            &format!("{} ({}). {}", name(spot.measure), tool(spot), how(spot.measure)),
        );
    }
    page.wrapped("  ", ROUNDS);
    page.heading("WRITE DOWN, in mm");
    let rounds = (1..=READINGS).map(|round| format!("{:>10}", format!("{round}."))).collect::<String>();
    page.line(&format!("  {:<16}{rounds}    once more if two differ by", ""));
    for spot in &sheet.spots {
        let spaces = "   _______".repeat(READINGS);
        let apart = spot.far_apart.map_or_else(String::new, |mm| format!("    more than {mm} mm: ______"));
        page.line("");
        page.line(&format!("  {:<16}{spaces}{apart}", name(spot.measure)));
    }
    page.heading("WHAT GOES WRONG MOST OFTEN");
    SLIPS.iter().for_each(|line| page.wrapped("  - ", line));
    if let Some(words) = exactness(&sheet.spots) {
        page.wrapped("  ", &words);
    }
    page.heading("SEND US");
    SEND.iter().for_each(|line| page.wrapped("  - ", line));
    page.line("");
    page.line("  Name: ______________________________   Day: ________________");
    page.line("");
    page.line("  Helmet now, and where it hurts: ____________________________");
    page.finish()
}
