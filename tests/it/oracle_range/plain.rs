//! Shares against plain loops over every pad set of every size, head by head.

use super::{adults, counted, effective, heads, shelf};
use crate::laws::RANGE;
use lidladder::fit::{Candidate, verdict};
use lidladder::profile::Model;
use lidladder::range::{Drawn, Map, Room, best, count};
use rstest::rstest;
use std::num::NonZeroUsize;

/// Every size of a model is judged with every pad set; the standard one is the first of them all.
fn plainly_fits(model: &Model, head: lidladder::head::EffectiveHead) -> [bool; 2] {
    let rules = &RANGE.shop.fit;
    let mut fits = [false; 2];
    for candidate in Candidate::of_models([model], &RANGE) {
        let verdict = verdict(&candidate, head, rules);
        fits[0] |= verdict.best().fits();
        fits[1] |= verdict.sets.iter().any(|set| set.fits() && set.swaps == 0);
    }
    fits
}

#[test]
fn every_model_serves_the_heads_of_a_plain_loop() {
    let heads = heads(400);
    let tally = counted(RANGE.models(), &heads);
    let (mut any, mut standard) = (vec![[false; 2]; heads.len()], 0);
    for (column, model) in RANGE.models().iter().enumerate() {
        let plain: Vec<_> = effective(&heads).map(|head| plainly_fits(model, head)).collect();
        let number = |layer: usize| plain.iter().filter(|fits| fits[layer]).count() as u64;
        assert_eq!(tally.count(|pattern| pattern.on_offer.has(column)), number(0), "{}", model.id);
        assert_eq!(tally.count(|pattern| pattern.standard.has(column)), number(1), "{}", model.id);
        for (any, fits) in any.iter_mut().zip(&plain) {
            *any = [any[0] | fits[0], any[1] | fits[1]];
        }
        standard += number(1);
    }
    let number = |layer: usize| any.iter().filter(|fits| fits[layer]).count() as u64;
    assert_eq!(tally.count(|pattern| !pattern.on_offer.is_empty()), number(0));
    assert_eq!(tally.count(|pattern| !pattern.standard.is_empty()), number(1));
    assert!(number(0) < 400 && number(1) < number(0) && standard > 1000, "heads that tell something");
}

/// The spans as they are written out, on many heads.
#[test]
fn the_index_answers_as_its_boxes_do() {
    let heads = heads(20_000);
    let tally = counted(RANGE.models(), &heads);
    for (column, model) in RANGE.models().iter().enumerate() {
        let candidates = Candidate::of_models([model], &RANGE);
        for (pads, layer) in [(lidladder::range::Pads::OnOffer, 0), (lidladder::range::Pads::Standard, 1)] {
            let rooms: Vec<_> = candidates.iter().map(|candidate| Room::of(candidate, pads, &RANGE.shop.fit)).collect();
            let in_one = |head: &lidladder::head::EffectiveHead| {
                rooms.iter().any(|room| room.holds([head.length, head.breadth, head.face_width]))
            };
            let plain = effective(&heads).filter(in_one).count() as u64;
            let counted = tally.count(|pattern| [pattern.on_offer, pattern.standard][layer].has(column));
            assert_eq!(counted, plain, "{} {pads:?}", model.id);
        }
    }
}

/// Forty-odd columns and more than 64: the same model again answers as the first time.
#[rstest]
#[case(3)]
#[case(5)]
#[case(9)]
fn many_columns_answer_alike(#[case] copies: usize) {
    let heads = heads(2048);
    let once = counted(RANGE.models(), &heads);
    let models: Vec<_> = std::iter::repeat_n(RANGE.models(), copies).flatten().cloned().collect();
    let tally = counted(&models, &heads);
    for column in 0..models.len() {
        let first = column % RANGE.models().len();
        assert_eq!(
            tally.count(|pattern| pattern.on_offer.has(column)),
            once.count(|pattern| pattern.on_offer.has(first))
        );
        assert_eq!(
            tally.count(|pattern| pattern.standard.has(column)),
            once.count(|pattern| pattern.standard.has(first))
        );
    }
    let all = |pattern: lidladder::range::Pattern<'_>| pattern.on_offer.count();
    let pairs = tally.patterns().map(|(pattern, heads)| all(pattern) as u64 * heads).sum::<u64>();
    let first = once.patterns().map(|(pattern, heads)| all(pattern) as u64 * heads).sum::<u64>();
    assert_eq!(pairs, first * copies as u64);
}

/// Nothing depends on who counted what: not the tally, not the map, not the heads that are kept.
#[rstest]
#[case(1_000)]
#[case(100_000)]
#[case(300_000)]
fn any_number_of_threads_counts_the_same(#[case] number: u64) {
    let shelf = shelf(RANGE.models());
    let of = |threads: usize| {
        let source = Drawn::new(adults(), number, 5);
        count(&shelf, source, NonZeroUsize::new(threads).expect("one at least"), &mut |_| {}).expect("heads are drawn")
    };
    let alone = of(1);
    assert_eq!(alone.tally.heads(), number);
    assert_eq!(alone.map.heads(), number);
    assert!(
        alone.kept.len() <= lidladder::range::KEPT
            && alone.kept.len() * 4 > lidladder::range::KEPT.min(number as usize)
    );
    for threads in [2, 3, 7] {
        assert_eq!(of(threads), alone, "{threads} threads");
    }
}

/// The map holds what the tally holds.
#[test]
fn the_map_adds_up_to_the_tally() {
    let shelf = shelf(RANGE.models());
    let counted =
        count(&shelf, Drawn::new(adults(), 50_000, 5), NonZeroUsize::MIN, &mut |_| {}).expect("heads are drawn");
    let sum = |of: fn(lidladder::range::Cell) -> u64, map: &Map| map.cells().map(|(_, _, cell)| of(cell)).sum::<u64>();
    assert_eq!(sum(|cell| cell.on_offer, &counted.map), counted.tally.count(|pattern| !pattern.on_offer.is_empty()));
    assert_eq!(sum(|cell| cell.standard, &counted.map), counted.tally.count(|pattern| !pattern.standard.is_empty()));
    let helmets = counted.tally.patterns().map(|(pattern, heads)| pattern.on_offer.count() as u64 * heads).sum::<u64>();
    assert_eq!(sum(|cell| cell.helmets, &counted.map), helmets);
}

/// The most even fit of a head is that of a plain loop over every pad set of every model.
#[test]
fn the_best_helmet_is_that_of_a_plain_loop() {
    let heads = heads(150);
    let found = best(&shelf(RANGE.models()), &heads);
    for (head, found) in effective(&heads).zip(found) {
        let mut plain: Option<(f64, usize)> = None;
        for (column, model) in RANGE.models().iter().enumerate() {
            for candidate in Candidate::of_models([model], &RANGE) {
                let verdict = verdict(&candidate, head, &RANGE.shop.fit);
                let set = verdict.best();
                if set.fits() && plain.is_none_or(|(least, _)| set.unevenness < least - 1e-12) {
                    plain = Some((set.unevenness, column));
                }
            }
        }
        assert_eq!(found, plain.map(|(_, column)| column), "{head:?}");
    }
}
