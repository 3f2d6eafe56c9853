//! The shop's rules on a card are those of its file, each once.

use super::{ALL, RANGE, SHELF, card, heads};
use itertools::Itertools;
use lidladder::card::cards;
use lidladder::profile::{Nature, Reason};
use lidladder::range::{Column, Shelf, taken, tally};

#[test]
fn every_rule_of_a_model_stands_on_its_card_and_no_other() {
    for card in &ALL.cards {
        let told = card.complaints.list.iter().flat_map(|complaint| {
            complaint.shop.iter().map(|next| {
                assert_eq!(next.edge.reason, complaint.reason);
                next.rule
            })
        });
        let told = told.chain(card.other_rules.iter().map(|(rule, _)| *rule)).sorted().collect_vec();
        let file = RANGE.edges().iter().positions(|edge| edge.from == card.model.id).collect_vec();
        assert_eq!(told, file, "{}", card.model.id);
        assert!(card.other_rules.iter().all(|(_, edge)| edge.reason.nature() != Nature::Geometric));
    }
}

/// A target that was filtered away is told without a figure.
#[test]
fn a_rule_to_a_model_that_is_left_out_has_no_figure() {
    let full = card("wexmarsh-one");
    let to_slender = |card: &lidladder::card::Card<'_>| {
        let complaint = card.complaints.list.iter().find(|complaint| complaint.reason == Reason::LooseSides);
        complaint.expect("a rule for it").shop[0].fits.is_some()
    };
    assert!(to_slender(full), "loose sides lead to the Slender");
    let alone = RANGE.models().iter().filter(|model| model.id.as_str() == "wexmarsh-one");
    let shelf = Shelf::new(alone.map(|model| Column::of(model, &RANGE)).collect(), RANGE.shop.fit);
    let counted = lidladder::range::Counted {
        tally: tally(&shelf, &taken(heads(), shelf.rules.outline), None),
        ..super::FEW.clone()
    };
    let made = cards(&RANGE, &shelf, &counted, &[0], 11);
    assert!(!to_slender(&made.cards[0]));
    assert_eq!(made.cards[0].complaints.at_once, full.complaints.at_once, "what is heard needs no other model");
    assert_eq!(SHELF.columns.len(), ALL.models);
}
