//! A helmet with given pads, and heads that go with what was heard.

use super::{RANGE, any_head, customer, taken_at_their_word, tape};
use crate::oracle_plan::dice::Dice;
use lidladder::fit::{Candidate, FIT, HeadSet, Worn, pad_sets, verdict};
use lidladder::head::{PARTICLES, Particles};
use lidladder::profile::Reason;
use rstest::rstest;

/// With fixed pads the tables say what the plain formulas say of that pad set.
#[test]
fn fixed_pads_do_what_the_formulas_say() {
    let models = taken_at_their_word();
    let rules = &RANGE.shop.fit;
    let mut dice = Dice::new(5);
    for candidate in Candidate::of_models(&models, &RANGE) {
        let sets = pad_sets(candidate.shell, candidate.size);
        for _ in 0..4 {
            let head = any_head(&mut dice);
            let effective = rules.outline.effective(head);
            let pads = sets[dice.below(sets.len())];
            let judged = verdict(&candidate, effective, rules).sets;
            let judged = judged.iter().find(|set| set.pads == pads).expect("on offer");
            let heads = Particles {
                circumference: vec![head.circumference],
                length: vec![head.length],
                breadth: vec![head.breadth],
                face_width: vec![head.face_width],
                weight: vec![1.0],
            };
            let room = lidladder::fit::EffectiveHeads::of(&heads, rules.outline);
            let mounted = candidate.clone().mounted(&pads, rules, 0.0);
            let tried = lidladder::fit::evaluate(&[&mounted], &room, rules, &RANGE.shop.minutes, (1, 0));
            let found = match tried.reason[0][0] {
                FIT => None,
                number => Some(Reason::geometric()[usize::from(number) - 1]),
            };
            assert_eq!(found, judged.reason, "{} with {pads:?}", candidate.title());
        }
    }
}

fn worn(model: &str, size: &str, reason: Option<Reason>) -> Worn<'static> {
    let model = RANGE.model(model).expect("part of the range");
    let (_, known) = model.sizes().find(|(_, known)| known.label.as_str() == size).expect("a size of it");
    Worn { model, size: known.label.clone(), pads: Some(known.standard), reason }
}

/// Heads that are picked out of many stand for the same customer as many heads with weights: means and spreads agree.
#[rstest]
#[case(&[("wexmarsh-one", "M", Some(Reason::TemplesPress)), ("haspenfell-plum", "M", Some(Reason::LooseSides))])]
#[case(&[("wexmarsh-one", "M", Some(Reason::TooRound)), ("lantreth-longways", "M", Some(Reason::TooOval)), ("haspenfell-plum", "L", None)])]
fn picked_heads_stand_for_the_same_customer(#[case] evidence: &[(&str, &str, Option<Reason>)]) {
    let mut customer = customer(tape(575.0), 3);
    customer.worn = evidence.iter().map(|(model, size, reason)| worn(model, size, *reason)).collect();
    let picked: Vec<_> = (1..=8).map(|scramble| HeadSet::draw(&RANGE, &customer, PARTICLES / 4, scramble)).collect();
    assert!(picked.iter().any(|set| set.effective_size < PARTICLES as f64 / 4.0), "it is surprising evidence");
    assert!(picked.iter().all(|set| set.heads.len() == PARTICLES / 4));
    let whole: Vec<_> = (11..=18).map(|scramble| HeadSet::draw(&RANGE, &customer, 16 * PARTICLES, scramble)).collect();
    let mean = |sets: &[HeadSet], at: usize| {
        let means: Vec<f64> = sets.iter().map(|set| set.heads.moments().mean[at]).collect();
        let mean = means.iter().sum::<f64>() / 8.0;
        (mean, (means.iter().map(|value| (value - mean).powi(2)).sum::<f64>() / 7.0 / 8.0).sqrt())
    };
    for at in 0..5 {
        let ((few, its_error), (many, error)) = (mean(&picked, at), mean(&whole, at));
        assert!(
            (few - many).abs() < 5.0 * (its_error + error) + 1e-9,
            "{at}: {few}±{its_error} against {many}±{error}"
        );
    }
}
