//! The probability of a report against the tables of `fit`, which plans are made from.

use super::{demo, experience, meant, size, tried};
use crate::oracle_plan::dice::Dice;
use lidladder::catalogue::Catalogue;
use lidladder::fit::{Candidate, EffectiveHeads, JUDGES, evaluate};
use lidladder::head::{Measure, Particles, Posterior, Reading};
use lidladder::profile::{Model, Reason, Zone};
use lidladder::sketch::{Fineness, sketch};

const HEADS: usize = 512;

/// The report of every outcome, in the order of the numbers in a table of outcomes.
fn outcomes() -> Vec<Option<Reason>> {
    std::iter::once(None).chain(Reason::geometric().iter().copied().map(Some)).collect()
}

/// A model with its standard pads alone, and a profile that is right.
fn bare(shop: &Catalogue, id: &str, index: f64) -> Model {
    let mut model = shop.model(id).expect("part of the demo range").clone();
    model.shells.iter_mut().for_each(|shell| shell.pads.clear());
    model.interior.shape_index = index;
    (model.interior.sd, model.interior.centre_sd) = (Some(0.0), Some(0.0));
    model
}

/// Helmets whose shape and size are known: what is expected of a customer is what the tables say, misreports counted.
#[test]
fn a_report_is_as_probable_as_the_tables_of_a_plan_say() {
    let mut shop = demo();
    shop.shop.profile_errors.by_eye.centre = 0.0;
    let population = shop.population("adults").expect("part of the demo range");
    let mut dice = Dice::new(4711);
    let mut seen = [false; 11];
    for round in 0..24 {
        let model =
            bare(&shop, dice.one_of(&["wexmarsh-one", "quorrie-plain", "umberlow-bowl"]), dice.between(70.0, 87.0));
        let mut candidates = Candidate::of_models([&model], &shop);
        let mut candidate = candidates.swap_remove(dice.below(candidates.len()));
        let mounted = (round % 3 == 0).then(|| {
            let mut pads = candidate.size.standard;
            *pads.get_mut(Zone::Sides) = Some(dice.between(9.0, 18.0));
            *pads.get_mut(Zone::Cheeks) = (round % 2 == 0).then(|| dice.between(27.0, 35.0));
            pads
        });
        let centre = candidate.size.centre();
        let readings = vec![
            Reading { measure: Measure::Circumference, value: centre + dice.between(-15.0, 15.0), sd: 3.0 },
            Reading { measure: Measure::Breadth, value: dice.between(143.0, 160.0), sd: 1.5 },
        ];
        let head = Posterior::new(population, &readings, None);

        // What the tables say. Other pads stand before the same liner.
        let standard = candidate.size.standard;
        let with_pads = mounted.map(|pads| {
            let mut model = model.clone();
            let sizes = model.shells.iter_mut().flat_map(|shell| &mut shell.sizes);
            sizes.for_each(|size| size.standard = pads);
            model
        });
        if let Some(model) = &with_pads {
            let others = Candidate::of_models([model], &shop);
            let same = others.into_iter().find(|other| other.size.label == candidate.size.label);
            let room = candidate.room;
            candidate = same.expect("the same size");
            candidate.room = room;
        }
        let mut shares = [0.0; 11];
        for set in 1..=JUDGES {
            let heads = Particles::draw(&head, HEADS, 1, set);
            let effective = EffectiveHeads::of(&heads, shop.shop.fit.outline);
            let tried = evaluate(&[&candidate], &effective, &shop.shop.fit, &shop.shop.minutes, (1, set));
            for (outcome, weight) in tried.reason[0].iter().zip(&heads.weight) {
                shares[usize::from(*outcome)] += weight / f64::from(JUDGES);
            }
        }

        for ((reason, share), seen) in outcomes().into_iter().zip(shares).zip(&mut seen) {
            let mut customer = tried(population, 0, readings.clone(), reason);
            customer.mounted = mounted;
            let sizes = vec![size("M", candidate.size.circumference, standard)];
            let said = experience(sizes, vec![meant(model.interior.shape_index, 1e-6)], vec![customer]);
            let made = sketch(&shop, &said, Fineness { heads: HEADS, ..Fineness::default() });
            let wrong = shop.shop.misreport;
            let expected = share * (1.0 - wrong) + (1.0 - share) * wrong / 10.0;
            // A head on the very edge of a band may fall to either side of it.
            assert!((made.heard[0].expected - expected).abs() < 0.002, "{reason:?}: {expected}, {:?}", made.heard);
            *seen |= share > 0.02;
        }
    }
    assert!(seen.iter().filter(|seen| **seen).count() >= 9, "most outcomes came about: {seen:?}");
}
