//! Cards of models for a terminal.

use super::page::{Page, WIDTH, bold};
use crate::render::CardDeck;
use crate::render::card_page::{CardPage, Part, Section, pages};
use crate::render::table::{Cell, Column, ColumnKind, Table};
use itertools::Itertools;
use unicode_width::UnicodeWidthStr;

/// All cards, one after the other.
#[must_use]
pub fn cards(deck: &CardDeck<'_>) -> String {
    let pages = pages(deck);
    let mut closing = Page::default();
    pages.closing.iter().for_each(|known| section(&mut closing, known));
    pages.cards.iter().map(card).chain([closing.finish()]).join("\n")
}

fn card(card: &CardPage) -> String {
    let mut page = Page::default();
    page.hanging(&format!("{}  ", bold("CARD")), 2, &format!("{} ({})", card.title, card.id));
    card.facts.iter().for_each(|facts| page.wrapped("  ", facts));
    card.sections.iter().for_each(|known| section(&mut page, known));
    page.finish()
}

fn section(page: &mut Page, section: &Section) {
    page.heading(&section.title.to_uppercase());
    for part in &section.parts {
        match part {
            Part::Words(words) => page.wrapped("  ", words),
            Part::List(items) => items.iter().for_each(|item| page.wrapped("  - ", item)),
            Part::Table(table) => rows(page, table),
        }
    }
}

/// A table; one that is wider than the page row by row, each value with its name.
fn rows(page: &mut Page, table: &Table) {
    let width = |column: usize| {
        let cells = table.rows.iter().map(|row| row[column].text.width());
        cells.chain([table.columns[column].name.width()]).max().unwrap_or_default()
    };
    let widths = (0..table.columns.len()).map(width).collect_vec();
    if widths.iter().map(|width| width + 2).sum::<usize>() > WIDTH {
        return named(page, table);
    }
    let line = |cells: &[&str]| {
        let padded = cells.iter().zip(&table.columns).zip(&widths).map(|((text, column), width)| {
            let fill = " ".repeat(width - text.width());
            match column.kind {
                ColumnKind::Words => format!("  {text}{fill}"),
                ColumnKind::Numbers => format!("  {fill}{text}"),
            }
        });
        padded.collect_vec().concat()
    };
    page.line(&line(&table.columns.iter().map(|column| column.name.as_str()).collect_vec()));
    for row in &table.rows {
        page.line(&line(&row.iter().map(|cell| cell.text.as_str()).collect_vec()));
    }
}

fn named(page: &mut Page, table: &Table) {
    let value = |(cell, column): (&Cell, &Column)| format!("{} {}", column.name, cell.text);
    for row in &table.rows {
        let Some((name, values)) = row.split_first() else { continue };
        let values = values.iter().zip(table.columns.iter().skip(1)).map(value).join("; ");
        page.hanging("  ", 4, &format!("{}: {values}", name.text));
    }
}
