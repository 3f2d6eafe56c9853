//! Pages for documents: CommonMark with the tables that most readers of it know.

use crate::diag::is_invisible;
use crate::render::CardDeck;
use crate::render::card_page::{CardPage, Part, Section, pages};
use crate::render::table::{ColumnKind, Table};
use itertools::Itertools;

/// All cards, one after the other.
#[must_use]
pub fn cards(deck: &CardDeck<'_>) -> String {
    let title = format!("# Cards of {}\n", escaped(&deck.catalogue.shop.name));
    let pages = pages(deck);
    let cards = pages.cards.iter().map(|known| card(known, &pages.closing));
    std::iter::once(title).chain(cards).join("\n")
}

fn card(card: &CardPage, closing: &[Section]) -> String {
    let mut text = format!("## {} ({})\n", escaped(&card.title), escaped(&card.id));
    let mut block = |block: String| text.push_str(&format!("\n{block}"));
    card.facts.iter().for_each(|facts| block(format!("{}\n", escaped(facts))));
    for section in card.sections.iter().chain(closing) {
        block(format!("### {}\n", section.title));
        for part in &section.parts {
            block(match part {
                Part::Words(words) => format!("{}\n", escaped(words)),
                Part::List(items) => items.iter().map(|item| format!("- {}\n", escaped(item))).join(""),
                Part::Table(known) => table(known),
            });
        }
    }
    text
}

fn table(table: &Table) -> String {
    let line = |cells: &mut dyn Iterator<Item = String>| format!("| {} |\n", cells.join(" | "));
    let marks = table.columns.iter().map(|column| match column.kind {
        ColumnKind::Words => ":---".to_owned(),
        ColumnKind::Numbers => "---:".to_owned(),
    });
    let mut text = line(&mut table.columns.iter().map(|column| escaped(&column.name)));
    text += &line(&mut marks.into_iter());
    for row in &table.rows {
        text += &line(&mut row.iter().map(|cell| escaped(&cell.text)));
    }
    text
}

/// A text that is nothing but a text: no markup, no tag, no end of a cell, and no link.
fn escaped(text: &str) -> String {
    let mut shown = String::with_capacity(text.len());
    for (at, character) in text.char_indices() {
        match character {
            '&' => shown.push_str("&amp;"),
            '<' => shown.push_str("&lt;"),
            '>' => shown.push_str("&gt;"),
            '\\' | '`' | '*' | '_' | '[' | ']' | '|' | '~' | '#' | '!' | '@' => shown.extend(['\\', character]),
            // Readers make links of what looks like an address.
            ':' if text[at..].starts_with("://") => shown.push_str("\\:"),
            '.' if text[..at].to_lowercase().ends_with("www") => shown.push_str("\\."),
            invisible if is_invisible(invisible) => shown.push('\u{fffd}'),
            other => shown.push(other),
        }
    }
    shown
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_no_markup() {
        assert_eq!(
            escaped("a|b`c`<b>&*_[x](y)\n\u{202e}"),
            "a\\|b\\`c\\`&lt;b&gt;&amp;\\*\\_\\[x\\](y)\u{fffd}\u{fffd}"
        );
        assert_eq!(escaped("http://a WWW.b a@b 1.5: ~2"), "http\\://a WWW\\.b a\\@b 1.5: \\~2");
    }
}
