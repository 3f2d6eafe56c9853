//! A sheet for a maker, to be sent as it is.

use super::super::Page;
use super::super::block::{list, paragraph, section, table};
use super::{STYLE, answer};
use crate::catalogue::Catalogue;
use crate::head::Population;
use crate::range::{Complaints, MakerSheet};
use crate::render::range_words::figures::{of_hundred, share, spread};
use crate::render::range_words::maker::{
    COMPLAINTS, CORRECT, OF_PACKS, OF_PAIRS, PACKS, SHARES, SheetWords, heard, hundred, missing, notes, often, rarer,
    with,
};
use crate::render::table::{Column, Table};
use crate::render::text::thousands;
use itertools::Itertools;

/// The sheet as a page for a browser; with complaints where a journal was given, and how many of its lines could not be
/// read.
#[must_use]
pub fn range_maker(
    catalogue: &Catalogue,
    population: &Population,
    sheet: &MakerSheet<'_>,
    complaints: Option<(&Complaints<'_>, usize)>,
) -> String {
    let words = SheetWords { catalogue, sheet };
    let main = [
        lines(&words, population),
        packs(&words),
        pairs(&words),
        complaints.map_or_else(String::new, |(complaints, unread)| said(complaints, unread)),
        section("how", "How we know", &[paragraph(&words.how()), paragraph(CORRECT)]),
    ];
    let title = format!("For {}: what would win customers", words.maker());
    let about = format!("From: {}", catalogue.shop.name);
    Page { title: &title, about: &about, style: STYLE, main: main.concat(), ..Page::default() }.finish()
}

fn lines(words: &SheetWords<'_, '_>, population: &Population) -> String {
    let sheet = words.sheet;
    let figures = [
        (share(sheet.served), "of all customers fit one of your helmets today".to_owned()),
        (share(sheet.together.for_maker), "more would, with all that is listed here".to_owned()),
    ];
    let about = paragraph(&words.about(population));
    if sheet.lines.is_empty() {
        let served = answer(&figures[..1]);
        return section("lines", "What would win customers", &[served, about, paragraph(&words.nothing())]);
    }
    let columns = vec![
        Column::words("Helmet"),
        Column::words("what"),
        Column::numbers("for you"),
        Column::numbers("for us"),
        Column::numbers("for you, if profiles are off"),
    ];
    let rows = sheet.lines.iter().zip(1..).map(|(line, number)| {
        let [you, us] = [line.gain.for_maker, line.gain.for_shop].map(of_hundred);
        let off = line.spread.map_or_else(String::new, spread);
        let helmet = format!("{number}. {}", line.model.name);
        vec![helmet, missing(line.model, &line.missing), you, us, off.trim_end_matches(" %").to_owned()]
    });
    let [you, us] = [sheet.together.for_maker, sheet.together.for_shop].map(of_hundred);
    let rows = rows.chain([vec!["All".to_owned(), "all of these together".to_owned(), you, us, String::new()]]);
    let known = table("Customers won, of 100 of all customers", &Table::plain(columns, rows));
    let minor = words.minor().map_or_else(String::new, |words| paragraph(&words));
    let shares = SHARES.replace("In brackets", "On the right");
    let parts = [answer(&figures), paragraph(&words.today()), about, known, minor, paragraph(&shares)];
    section("lines", "What would win customers", &parts)
}

fn packs(words: &SheetWords<'_, '_>) -> String {
    let packs = words.packs();
    if packs.is_empty() {
        return String::new();
    }
    let currency = &words.catalogue.shop.currency;
    let columns = vec![
        Column::words("Pack"),
        Column::numbers("bought, times"),
        Column::words("used of it"),
        Column::numbers(format!("a used pad costs, {currency}")),
        Column::numbers(format!("sold singly they save, {currency}")),
    ];
    let rows = packs.iter().take(PACKS).map(|pack| {
        let facts = words.facts(pack);
        vec![facts.name, hundred(facts.bought), facts.used, facts.for_one.to_string(), facts.saved.to_string()]
    });
    let known = table("By 100 customers whom the model fits", &Table::plain(columns, rows));
    let others = words.other_packs().map_or_else(String::new, |words| paragraph(&words));
    section("packs", "Packs", &[known, others, paragraph(OF_PACKS)])
}

fn pairs(words: &SheetWords<'_, '_>) -> String {
    let pairs = words.sheet.pairs.iter().map(|pair| words.pair(pair)).collect_vec();
    if pairs.is_empty() {
        return String::new();
    }
    let by = paragraph("By 100 customers whom the model fits:");
    section("pairs", "Single pads that are needed together", &[by, list(&pairs), paragraph(OF_PAIRS)])
}

fn said(complaints: &Complaints<'_>, unread: usize) -> String {
    let columns = vec![
        Column::words("Helmet"),
        Column::words("what was said"),
        Column::numbers("heard in"),
        Column::numbers("share"),
        Column::words("with which pads"),
    ];
    let rows = complaints.told.iter().take(COMPLAINTS).map(|complaint| {
        vec![
            format!("{} in {}", complaint.model.name, complaint.size.label),
            complaint.reason.words().to_owned(),
            heard(complaint),
            often(complaint),
            with(complaint),
        ]
    });
    let rows = rows.collect_vec();
    let known = match rows.len() {
        0 => String::new(),
        _ => table("Complaints, counted", &Table::plain(columns, rows)),
    };
    let rarer = rarer(complaints).map_or_else(String::new, |words| paragraph(&words));
    let title = format!("What customers said, in {} tries of your helmets", thousands(complaints.tries));
    section("said", &title, &[known, rarer, paragraph(&notes(complaints, unread))])
}
