//! Whom a model suits.

use super::figures::{ovals, whole};
use super::{Cell, Column, Part, Section, Table};
use crate::card::{Card, Counts, MadeFor, OfWord, Row, Which};
use crate::range::share;
use crate::render::text::{between, of_hundred};
use itertools::Itertools;

/// Whom it serves, of all customers and of each kind of head.
pub(super) fn suits(card: &Card<'_>) -> Section {
    let by_word = card.suits.by_word.iter().filter_map(of_word).collect_vec();
    let words = "Of 100 heads so many fit, in any size of it with the pads on offer; in the last column as it comes.";
    Section {
        title: "Suits",
        parts: vec![Part::Words(all(card)), Part::List(by_word), Part::Words(words.to_owned()), Part::Table(map(card))],
    }
}

/// The heads that its sizes are made for.
pub(super) fn sizes(card: &Card<'_>) -> Section {
    let columns = vec![
        Column::words("size"),
        Column::words("shell"),
        Column::numbers("label cm"),
        Column::numbers("around"),
        Column::numbers("length"),
        Column::numbers("breadth"),
        Column::numbers("face"),
        Column::numbers("index"),
    ];
    let row = |size: &MadeFor<'_>| {
        let mut row = vec![size.size.label.to_string(), size.shell.id.to_string(), label(size.size.circumference)];
        row.extend(size.head.iter().map(|mm| format!("{mm:.0}")));
        row.push(format!("{:.1}", size.shape_index));
        row
    };
    let words = "The head that each is made for, mm: all of its standard pads sit at their best there.";
    let table = Table::plain(columns, card.sizes.iter().map(row));
    Section { title: "Sizes", parts: vec![Part::Words(words.to_owned()), Part::Table(table)] }
}

fn all(card: &Card<'_>) -> String {
    let own = &card.own;
    let only = if own.only.quote.value > 0.0 {
        format!(", {} of them nothing else", of_hundred(own.only.quote))
    } else {
        String::new()
    };
    let best = own.best_at.map_or_else(
        || format!("It is the best fit of all for {} of 100.", of_hundred(own.best)),
        |[mm, index]| {
            let ends = |ends: [f64; 2]| ends.iter().map(|end| format!("{end:.0}")).dedup().join(" to ");
            format!(
                "It is the best fit of all for {} of 100: the middle half of these have {} cm and the shape index {}.",
                of_hundred(own.best),
                ends(mm.map(|mm| mm / 10.0)),
                ends(index)
            )
        },
    );
    format!(
        "Of 100 customers it fits {} as it comes and {} with the pads on offer (if profiles are off: {}){only}. {best}",
        of_hundred(own.standard),
        of_hundred(own.on_offer.quote),
        between(own.on_offer.spread)
    )
}

fn of_word(of: &OfWord) -> Option<String> {
    let [standard, on_offer] = of.counts.shares()?;
    let others = of.mostly.map_or_else(String::new, |(reason, share)| {
        format!("; of the others most ({}) say: {}", whole(share), reason.words())
    });
    let fits = format!("{} of 100 in its sizes fit, {} as it comes", whole(on_offer), whole(standard));
    Some(format!("{}: {fits}{others}", ovals(of.word)))
}

fn map(card: &Card<'_>) -> Table {
    let columns = vec![
        Column::words("size"),
        Column::numbers("label cm"),
        Column::numbers("of 100"),
        Column::numbers("long"),
        Column::numbers("intermediate"),
        Column::numbers("round"),
        Column::numbers("all"),
        Column::numbers("as it comes"),
    ];
    let rows = card.suits.rows.iter().filter(|row| row.all().heads > 0 || matches!(row.which, Which::In(_)));
    Table { columns, rows: rows.map(|row| map_row(row, card.suits.heads)).collect() }
}

fn map_row(row: &Row<'_>, heads: u64) -> Vec<Cell> {
    let (name, cm) = match row.which {
        Which::Under => ("smaller".to_owned(), "-".to_owned()),
        Which::In(size) => (size.label.to_string(), label(size.circumference)),
        Which::Over => ("larger".to_owned(), "-".to_owned()),
    };
    let all = row.all();
    let mut cells = Vec::from([name, cm, whole(share(all.heads, heads))].map(Cell::from));
    cells.extend(row.by_word.into_iter().chain([all]).map(|counts| cell(counts, 1)));
    cells.push(cell(all, 0));
    cells
}

/// How many fit: 0 with standard pads, 1 with those on offer.
fn cell(counts: Counts, pads: usize) -> Cell {
    let share = counts.shares().map(|shares| shares[pads]);
    Cell { text: share.map_or_else(|| ".".to_owned(), whole), share: share.map(|share| share.value) }
}

/// A labelled range in cm.
fn label((from, to): (f64, f64)) -> String {
    [from, to].iter().map(|mm| crate::unit::plain(mm / 10.0)).dedup().join("-")
}
