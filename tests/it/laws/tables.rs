//! The fast way (a table per axis, all heads at once) against the verdict (all pad sets, one head).

use super::{RANGE, population, taken_at_their_word};
use crate::oracle_plan::dice::Dice;
use lidladder::catalogue::Catalogue;
use lidladder::fit::{Candidate, EffectiveHeads, FIT, evaluate, verdict};
use lidladder::head::{EffectiveHead, Particles, Posterior};
use lidladder::profile::{Model, Pad, Reason, Supply, Zone};

const HEADS: usize = 4096;

/// Rooms are rounded to f32 on the fast way: a head closer than this to where a window ends may go either way, mm.
const EDGE: f64 = 1e-4;

#[test]
fn the_tables_say_what_the_verdict_says() {
    let models = taken_at_their_word();
    let (agreed, fits) = compare(&RANGE, &models, 2500);
    assert!(agreed > 1000 && fits > 400, "{agreed} compared, {fits} of them fit");
}

/// Between the windows of a thin and of a thick pad a head is too loose for the one and too tight for the other.
#[test]
fn between_two_windows_the_nearer_pad_names_the_reason() {
    let mut model = taken_at_their_word().swap_remove(0);
    for shell in &mut model.shells {
        shell.pads.retain(|pad| pad.zone != Zone::Sides);
        let price = Supply::Single(model.price);
        shell.pads.push(Pad { zone: Zone::Sides, thickness: 45.0, supply: price, sizes: None });
    }
    let (compared, _) = compare(&RANGE, &[model], 400);
    assert!(compared > 100, "{compared} compared");
}

/// Compares so many (head, candidate) pairs whose labels lie near the head; says how many, and how many fit.
fn compare(catalogue: &Catalogue, models: &[Model], pairs: usize) -> (usize, usize) {
    let rules = &catalogue.shop.fit;
    let minutes = &catalogue.shop.minutes;
    let candidates = Candidate::of_models(models, catalogue);
    let heads = Particles::draw(&Posterior::new(population(), &[], None), HEADS, 3, 0);
    let effective = EffectiveHeads::of(&heads, rules.outline);
    let tried = evaluate(&candidates.iter().collect::<Vec<_>>(), &effective, rules, minutes, (3, 0));
    let mut dice = Dice::new(4);
    let (mut compared, mut fits) = (0, 0);
    for _ in 0..pairs {
        let (head, at) = (dice.below(HEADS), dice.below(candidates.len()));
        let candidate = &candidates[at];
        let taken = rules.outline.effective(heads.head(head));
        let far = (heads.circumference[head] - candidate.size.centre()).abs() > 25.0;
        if far || on_an_edge(candidate, taken, catalogue) {
            continue;
        }
        let found = verdict(candidate, taken, rules);
        let told = format!("{}, {:?}", candidate.title(), heads.head(head));
        assert_eq!(tried.reason[at][head], number(found.best().reason), "{told}: {:?}", found.best());
        if found.best().fits() {
            let swaps = found.sets.iter().filter(|set| set.fits()).map(|set| set.minutes);
            let least = swaps.min_by(f64::total_cmp).unwrap();
            let again = if least > 0.0 { minutes.recheck } else { 0.0 };
            let expected = minutes.fetch + minutes.check + least + again;
            assert!((tried.minutes[at][head] - expected).abs() < 1e-4, "{told}: minutes");
            fits += 1;
        }
        compared += 1;
    }
    (compared, fits)
}

fn number(reason: Option<Reason>) -> u8 {
    let Some(reason) = reason else { return FIT };
    u8::try_from(Reason::geometric().iter().position(|known| *known == reason).unwrap() + 1).unwrap()
}

fn on_an_edge(candidate: &Candidate<'_>, taken: EffectiveHead, catalogue: &Catalogue) -> bool {
    let cavity = candidate.cavity(&catalogue.shop.fit);
    let taken = [taken.length, taken.breadth, taken.face_width];
    let near = |axis: usize| {
        let room = cavity[axis] - taken[axis];
        candidate.axes[axis].iter().flat_map(|table| &table.breaks).any(|edge| (room - edge).abs() < EDGE)
    };
    (0..3).any(near)
}
