//! Cards against plain loops, against the range's own figures, and against real heads counted by hand.

mod men;
mod plain;
mod rules;

use crate::laws::RANGE;
use lidladder::card::{Card, Cards, cards};
use lidladder::head::Particles;
use lidladder::range::{Column, Counted, Drawn, Shelf, count};
use std::num::NonZeroUsize;
use std::sync::LazyLock;

/// How many heads every one of which is tried in every pad set.
const HEADS: u64 = 400;

static SHELF: LazyLock<Shelf<'static>> = LazyLock::new(|| {
    Shelf::new(RANGE.models().iter().map(|model| Column::of(model, &RANGE)).collect(), RANGE.shop.fit)
});

fn counted(heads: u64) -> Counted {
    let adults = RANGE.population("adults").expect("part of the demo range");
    count(&SHELF, Drawn::new(adults, heads, 11), NonZeroUsize::MIN, &mut |_| {}).expect("heads are drawn")
}

static FEW: LazyLock<Counted> = LazyLock::new(|| counted(HEADS));

static ALL: LazyLock<Cards<'static>> = LazyLock::new(|| cards(&RANGE, &SHELF, &FEW, &all_columns(), 11));

fn all_columns() -> Vec<usize> {
    (0..SHELF.columns.len()).collect()
}

fn heads() -> &'static Particles {
    &FEW.kept
}

fn card(model: &str) -> &'static Card<'static> {
    ALL.cards.iter().find(|card| card.model.id.as_str() == model).expect("a card of the demo range")
}

/// How many heads a share stands for.
fn number(share: f64, of: u64) -> u64 {
    (share * of as f64).round() as u64
}
