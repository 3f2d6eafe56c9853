//! Cards of models, each a page of paper.

use super::{escaped, list, page, paragraph};
use crate::render::CardDeck;
use crate::render::card_page::{CardPage, Cell, ColumnKind, Part, Section, Table, pages};
use itertools::Itertools;

/// Letters of a word that stays whole in a table.
const LONGEST_WORD: usize = 16;

/// All cards on one page for a browser, and each on its own when printed.
#[must_use]
pub fn cards(deck: &CardDeck<'_>) -> String {
    let title = format!("Cards of {}", deck.catalogue.shop.name);
    let pages = pages(deck);
    let cards = pages.cards.iter().map(|known| card(known, &pages.closing)).join("");
    page(&title, STYLE, &format!("<h1>{}</h1>\n{cards}", escaped(&title)))
}

fn card(card: &CardPage, closing: &[Section]) -> String {
    let (id, title) = (escaped(&card.id), escaped(&card.title));
    let facts = card.facts.iter().map(|facts| paragraph(facts)).join("");
    let sections = card.sections.iter().chain(closing).map(section).join("");
    format!("<article id=\"{id}\">\n<h2>{title} <small>{id}</small></h2>\n{facts}{sections}</article>\n")
}

fn section(section: &Section) -> String {
    let parts = section.parts.iter().map(|part| match part {
        Part::Words(words) => paragraph(words),
        Part::List(items) => list(items),
        Part::Table(known) => table(known),
    });
    let (key, title) = (section.key, escaped(section.title));
    format!("<section class=\"{key}\">\n<h3>{title}</h3>\n{}</section>\n", parts.collect_vec().concat())
}

fn table(table: &Table) -> String {
    let head = table.columns.iter().map(|column| {
        let class = class(&[number(column.kind), long(&column.name)]);
        format!("<th scope=\"col\"{class}>{}</th>", escaped(&column.name))
    });
    let row = |row: &Vec<Cell>| {
        let cells = row.iter().zip(&table.columns).enumerate().map(|(at, (cell, column))| {
            let (text, long) = (escaped(&cell.text), long(&cell.text));
            match (at, cell.share) {
                (0, _) => format!("<th scope=\"row\"{}>{text}</th>", class(&[long])),
                (_, Some(share)) => format!("<td{}>{text}</td>", class(&["n", shade(share), long])),
                (_, None) => format!("<td{}>{text}</td>", class(&[number(column.kind), long])),
            }
        });
        format!("<tr>{}</tr>\n", cells.collect_vec().concat())
    };
    let rows = table.rows.iter().map(row).join("");
    let head = head.collect_vec().concat();
    format!("<table>\n<thead>\n<tr>{head}</tr>\n</thead>\n<tbody>\n{rows}</tbody>\n</table>\n")
}

/// The classes that a cell has, as its attribute.
fn class(names: &[&str]) -> String {
    let names = names.iter().filter(|name| !name.is_empty()).join(" ");
    if names.is_empty() { names } else { format!(" class=\"{names}\"") }
}

fn number(kind: ColumnKind) -> &'static str {
    if kind == ColumnKind::Numbers { "n" } else { "" }
}

/// Words that no column is wide enough for; only those are broken anywhere.
fn long(text: &str) -> &'static str {
    if text.split_whitespace().any(|word| word.chars().count() > LONGEST_WORD) { "long" } else { "" }
}

/// Five grounds, the stronger the more. The number in the cell says the same.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from 0 to 4")]
fn shade(share: f64) -> &'static str {
    ["s0", "s1", "s2", "s3", "s4"][(share.clamp(0.0, 1.0) * 5.0).min(4.0) as usize]
}

/// For a screen of any width, light or dark, and for paper: there black on white, a card a page.
const STYLE: &str = "\
@page { size: A4; margin: 10mm 12mm }
:root { color-scheme: light dark; --ink: #1a1a1a; --paper: #fff; --line: #767676; --soft: #4d4d4d;
  --s1: #edf3fa; --s2: #d5e4f4; --s3: #b4d0ec; --s4: #8db9e2 }
@media (prefers-color-scheme: dark) { :root { --ink: #ededed; --paper: #161616; --line: #8a8a8a; --soft: #b8b8b8;
  --s1: #1a2733; --s2: #1e3850; --s3: #224c73; --s4: #265f94 } }
* { box-sizing: border-box }
body { font: 16px/1.4 sans-serif; max-width: 52em; margin: 0 auto; padding: 0 .8em 2em; color: var(--ink);
  background: var(--paper); overflow-wrap: anywhere }
h1 { font-size: 1.1em; margin: .8em 0; color: var(--soft) }
h2 { font-size: 1.6em; line-height: 1.2; margin: 1em 0 .3em }
h2 small { font-size: .6em; font-weight: normal; color: var(--soft) }
h3 { font-size: 1.1em; margin: 1em 0 .2em; border-bottom: 1px solid var(--line); break-after: avoid }
article + article { border-top: 3px solid var(--line); margin-top: 2.5em }
p, ul { margin: .3em 0 }
ul { padding-left: 1.2em }
li { margin: .2em 0; break-inside: avoid }
table { border-collapse: collapse; width: 100%; margin: .4em 0; break-inside: avoid; font-variant-numeric: tabular-nums }
th, td { padding: .1em .35em; text-align: left; vertical-align: top; border-bottom: 1px solid var(--line);
  overflow-wrap: normal }
.long { overflow-wrap: anywhere }
thead th { font-size: .85em; vertical-align: bottom }
tbody th { font-weight: 600 }
.n { text-align: right }
.s1 { background: var(--s1) } .s2 { background: var(--s2) } .s3 { background: var(--s3) } .s4 { background: var(--s4) }
@media (max-width: 34em) { table { font-size: .74em } th, td { padding: .15em .2em } thead th { hyphens: auto } }
@media print {
  :root { color-scheme: light; --ink: #000; --paper: #fff; --line: #808080; --soft: #000;
    --s1: #fff; --s2: #fff; --s3: #fff; --s4: #fff }
  body { font-size: 8.2pt; line-height: 1.2; max-width: none; padding: 0 }
  h1 { display: none }
  h2 { margin: 0 0 .2em }
  h3 { margin: .55em 0 .1em }
  article { display: grid; grid-template-columns: 5fr 6fr; column-gap: 7mm; align-content: start }
  article > * { grid-column: span 2; min-width: 0 }
  .heard, .next, .cautions, .how { grid-column: span 1 }
  article + article { break-before: page; border: none; margin: 0 }
  th, td { padding: 0 .3em }
  p, ul, li { margin: .12em 0 }
  .rules ul { columns: 2; column-gap: 7mm }
}
";
