//! Whom a model suits.

use super::figures::{ovals, whole};
use super::{Part, Section};
use crate::card::{Card, Counts, OfWord, Row, Which};
use crate::profile::Size;
use crate::range::share;
use crate::render::range_words::figures::{between, of_hundred};
use crate::render::table::{Cell, Column, Table};
use itertools::Itertools;

/// Whom it serves, of all customers and of each kind of head.
pub(super) fn suits(card: &Card<'_>) -> Section {
    let by_word = card.suits.by_word.iter().filter_map(of_word).collect_vec();
    let words = "Made for a head: around, length by breadth, face. Of 100 customers so many have the size, and of 100 of \
                 those, oval by oval, so many fit some size with the pads on offer; at once: as it comes.";
    Section {
        key: "suits",
        title: "Suits",
        parts: vec![Part::Words(all(card)), Part::List(by_word), Part::Words(words.to_owned()), Part::Table(map(card))],
    }
}

fn all(card: &Card<'_>) -> String {
    let own = &card.own;
    let only = own.only.quote;
    let only =
        if only.value > only.error { format!(", {} of them nothing else", of_hundred(only)) } else { String::new() };
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
    // Where nearly all fit there are too few others to speak of.
    let others = of.mostly.filter(|_| on_offer.value < 0.995).map_or_else(String::new, |(reason, share)| {
        format!("; of 100 of the others {} say: {}", whole(share), reason.words())
    });
    let fits = format!("{} of 100 in its sizes fit, {} as it comes", whole(on_offer), whole(standard));
    Some(format!("{}: {fits}{others}", ovals(of.word)))
}

fn map(card: &Card<'_>) -> Table {
    let columns = vec![
        Column::words("size"),
        Column::numbers("cm"),
        Column::numbers("made for, mm"),
        Column::numbers("of 100"),
        Column::numbers("long"),
        Column::numbers("interm."),
        Column::numbers("round"),
        Column::numbers("all"),
        Column::numbers("at once"),
    ];
    let rows = card.suits.rows.iter().filter(|row| row.all().heads > 0 || matches!(row.which, Which::In(_)));
    Table { columns, rows: rows.map(|row| map_row(row, card)).collect() }
}

fn map_row(row: &Row<'_>, card: &Card<'_>) -> Vec<Cell> {
    let none = "-".to_owned();
    let [name, cm, head] = match row.which {
        Which::Under => ["smaller".to_owned(), none.clone(), none],
        Which::In(size) => [size.label.to_string(), label(size.circumference), made_for(card, size).unwrap_or(none)],
        Which::Over => ["larger".to_owned(), none.clone(), none],
    };
    let all = row.all();
    let mut cells = Vec::from([name, cm, head, whole(share(all.heads, card.suits.heads))].map(Cell::from));
    cells.extend(row.by_word.into_iter().chain([all]).map(|counts| cell(counts, 1)));
    cells.push(cell(all, 0));
    cells
}

/// The head whose pads all sit at their best: around, length by breadth, face.
fn made_for(card: &Card<'_>, size: &Size) -> Option<String> {
    let [around, length, breadth, face] = card.sizes.iter().find(|made| made.size.label == size.label)?.head;
    Some(format!("{around:.0}: {length:.0}x{breadth:.0}, {face:.0}"))
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
