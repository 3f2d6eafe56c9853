//! Ninety real heads in a helmet whose boxes are round numbers. The numbers expected here were counted in the table itself,
//! line by line and without this program; see `oracle_range/men.rs` for its source.

use super::{RANGE, number};
use crate::oracle_range::men::{helmet, men, rules};
use lidladder::card::{Which, cards};
use lidladder::profile::{Reason, Zone};
use lidladder::range::{Column, Counted, Map, Shelf, taken, tally};

/// Labelled 57 to 58 cm: 12 of the men have less than 56.5 cm, 26 more than 58.5. It fits 194.2 to 200.2 by 152.2 to 158.2 mm as it
/// comes, and with thinner pads up to 201.2 and 160.2 mm.
#[test]
fn what_ninety_men_say_of_one_size() {
    let model = helmet(&[(Zone::Sides, 8.0), (Zone::Rear, 8.0)]);
    let mut catalogue = RANGE.clone();
    catalogue.shop.fit = rules();
    let shelf = Shelf::new(vec![Column::of(&model, &catalogue)], rules());
    let counted = Counted {
        tally: tally(&shelf, &taken(&men(), rules().outline), None),
        map: Map::default(),
        kept: men(),
        drawn: [0; 4],
    };
    let made = cards(&catalogue, &shelf, &counted, &[0], 1);
    let card = &made.cards[0];
    let rows = card.suits.rows.iter().map(|row| (row.which, row.all().heads)).collect::<Vec<_>>();
    assert!(matches!(rows[..], [(Which::Under, 12), (Which::In(_), 52), (Which::Over, 26)]), "{rows:?}");
    // By shape: 15 have an index below 76, 9 one above 81.
    let words = card.suits.rows[1].by_word.map(|counts| (counts.heads, counts.standard, counts.on_offer));
    assert_eq!(words, [(15, 0, 0), (28, 16, 18), (9, 0, 0)]);
    let complaints = &card.complaints;
    assert_eq!([complaints.at_once, complaints.with_pads].map(|share| number(share.value, 52)), [16, 18]);
    let expected = [
        (Reason::TightAllRound, [1, 0, 0]),
        (Reason::LooseAllRound, [6, 0, 6]),
        (Reason::TooRound, [7, 0, 6]),
        (Reason::TooOval, [2, 0, 0]),
        (Reason::BrowRearPress, [4, 1, 3]),
        (Reason::TemplesPress, [4, 1, 4]),
        (Reason::LooseFrontToBack, [4, 0, 6]),
        (Reason::LooseSides, [8, 0, 9]),
    ];
    for (reason, counts) in expected {
        let told = complaints.list.iter().find(|complaint| complaint.reason == reason).expect("it is heard");
        assert_eq!([told.heard, told.cured, told.stays].map(|share| number(share.value, 52)), counts, "{reason:?}");
    }
    let heard = complaints.list.iter().filter(|complaint| complaint.heard.value > 0.0).count();
    assert_eq!(heard, expected.len());
}
