//! More pads in the drawer: no head loses its fit.

use super::{RANGE, population, taken_at_their_word};
use crate::oracle_plan::dice::Dice;
use lidladder::fit::{Candidate, EffectiveHeads, FIT, Outcomes, evaluate};
use lidladder::head::{Particles, Posterior};
use lidladder::profile::{Model, Pad, Supply, Zone};

const HEADS: usize = 1024;

/// Profiles taken at their word. With every added pad each (model, size) still fits every head that it fitted before.
#[test]
fn another_pad_never_loses_a_fit() {
    let heads = Particles::draw(&Posterior::new(population(), &[], None), HEADS, 6, 0);
    let effective = EffectiveHeads::of(&heads, RANGE.shop.fit.outline);
    let mut dice = Dice::new(8);
    let (mut won, mut models) = (0, taken_at_their_word());
    let mut before = outcomes(&models, &effective);
    for _ in 0..6 {
        for model in &mut models {
            add_a_pad(model, &mut dice);
        }
        let after = outcomes(&models, &effective);
        for (candidate, (old, new)) in before.reason.iter().zip(&after.reason).enumerate() {
            for (head, (old, new)) in old.iter().zip(new).enumerate() {
                let told = || format!("candidate {candidate}, {:?}", heads.head(head));
                assert!(*old != FIT || *new == FIT, "{}", told());
                won += u32::from(*old != FIT && *new == FIT);
            }
        }
        before = after;
    }
    assert!(won > 1000, "{won} heads won: pads that change nothing test nothing");
}

fn outcomes(models: &[Model], heads: &EffectiveHeads) -> Outcomes {
    let candidates = Candidate::of_models(models, &RANGE);
    evaluate(&candidates.iter().collect::<Vec<_>>(), heads, &RANGE.shop.fit, &RANGE.shop.minutes, (6, 0))
}

/// One pad of any thickness for one zone of each shell.
fn add_a_pad(model: &mut Model, dice: &mut Dice) {
    let price = model.price;
    for shell in &mut model.shells {
        let zone = dice.one_of(&[Zone::Brow, Zone::Rear, Zone::Sides, Zone::Cheeks]);
        let usual = shell.sizes[0].standard.get(zone).unwrap_or(12.0);
        let thickness = (usual + dice.between(-6.0, 6.0)).max(3.0);
        shell.pads.push(Pad { zone, thickness, supply: Supply::Single(price), sizes: None });
    }
}
