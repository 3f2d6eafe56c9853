//! Cards of models: for a terminal, and for a drawer with slips of paper.

use super::page::{Page, bold};
use crate::render::CardDeck;
use crate::render::card_page::{CardPage, ColumnKind, Part, Table, pages};
use itertools::Itertools;
use unicode_width::UnicodeWidthStr;

/// Columns of a page.
const WIDTH: usize = 80;

/// All cards, one after the other.
#[must_use]
pub fn cards(deck: &CardDeck<'_>) -> String {
    pages(deck).iter().map(card).join("\n\n")
}

fn card(card: &CardPage) -> String {
    let mut page = Page::default();
    page.hanging(&format!("{}  ", bold("CARD")), 2, &format!("{} ({})", card.title, card.id));
    card.facts.iter().for_each(|facts| page.wrapped("  ", facts));
    for section in &card.sections {
        page.heading(&section.title.to_uppercase());
        for part in &section.parts {
            match part {
                Part::Words(words) => page.wrapped("  ", words),
                Part::List(items) => items.iter().for_each(|item| page.wrapped("  - ", item)),
                Part::Table(table) => rows(&mut page, table),
            }
        }
    }
    page.finish()
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
    for row in &table.rows {
        let words = row.iter().zip(&table.columns).map(|(cell, column)| format!("{} {}", column.name, cell.text));
        page.hanging("  ", 4, &words.collect_vec().join("; "));
    }
}
