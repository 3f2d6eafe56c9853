//! Cards of models, each a page of paper.

use super::Page;
use super::block::{bare_table, list, paragraph};
use crate::render::CardDeck;
use crate::render::card_page::{CardPage, Part, Section, pages};
use crate::render::markup::escaped;
use itertools::Itertools;

/// All cards on one page for a browser, and each on its own when printed.
#[must_use]
pub fn cards(deck: &CardDeck<'_>) -> String {
    let title = format!("Cards of {}", deck.catalogue.shop.name);
    let pages = pages(deck);
    let cards = pages.cards.iter().map(|known| card(known, &pages.closing)).join("");
    Page { title: &title, style: STYLE, main: cards, ..Page::default() }.finish()
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
        Part::Table(known) => bare_table("", known),
    });
    let (key, title) = (section.key, escaped(section.title));
    format!("<section class=\"{key}\">\n<h3>{title}</h3>\n{}</section>\n", parts.collect_vec().concat())
}

/// On paper a card a page.
const STYLE: &str = "\
article + article { border-top: 3px solid var(--soft); margin-top: 2.5rem }
h2 { font-size: 1.5rem; margin-top: .8rem }
h2 small { font-size: .6em; font-weight: normal; color: var(--soft) }
h3 { border-bottom: 1px solid var(--soft) }
table { width: 100%; break-inside: avoid }
.n { white-space: normal }
th, td { padding: .1rem .35rem }
@media (max-width: 34rem) { table { font-size: .74rem } th, td { padding: .15rem .2rem } thead th { font-size: .7rem; hyphens: auto } }
@media print {
  @page { margin: 10mm 12mm }
  header { display: none }
  body { font-size: 8.2pt; line-height: 1.2 }
  h2 { margin: 0 0 .2em }
  h3 { margin: .55em 0 .1em; font-size: 1.1em }
  thead th { font-size: .85em }
  article { display: grid; grid-template-columns: 5fr 6fr; column-gap: 7mm; align-content: start }
  article > * { grid-column: span 2; min-width: 0 }
  .heard, .next, .cautions, .how { grid-column: span 1 }
  article + article { break-before: page; border: none; margin: 0 }
  th, td { padding: 0 .3em }
  table { margin: .4em 0 }
  p, ul, li { margin: .12em 0 }
  .rules ul { columns: 2; column-gap: 7mm }
}
";
