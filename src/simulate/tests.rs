//! A small shop with everything in it.

use super::tryout::{Tryout, try_on};
use super::*;
use crate::catalogue::{Catalogue, Origin, load};
use crate::diag::Sources;
use crate::fit::{Candidate, EffectiveHeads, evaluate};
use crate::head::{Measure, Particles, Posterior};
use crate::journal::{Day, from_line, to_line};
use crate::plan::Lead;
use crate::profile::{Kind, Measurer, ProfileError, Tool};
use itertools::Itertools;

fn demo() -> Catalogue {
    load(&Origin::BuiltIn, &mut Sources::default()).unwrap()
}

/// Off-road helmets only, because few candidates make quick plans.
fn visits(catalogue: &Catalogue, world: &World<'_>, misreport: f64, customers: u64) -> Vec<Visit> {
    let population = catalogue.population("adults").unwrap();
    let tape = Taken::as_assumed(&catalogue.shop, Measure::Circumference, Measurer::Staff, Tool::Tape, 10.0).unwrap();
    let by_eye = Situation { share: 1.0, taken: vec![tape], shape: Shape::ByEye };
    let plain = Situation { share: 3.0, taken: vec![tape], shape: Shape::Unsaid };
    let from = Day::new(2026, 1, 2).unwrap();
    let habits = Habits { population, situations: vec![plain, by_eye], misreport, from, a_day: 4 };
    let models = catalogue.models().iter().filter(|model| model.kind == Kind::OffRoad).collect();
    let mut fitter = Fitter::new(catalogue, population, models, Lead::ComputedOnly);
    simulate(world, &habits, &mut fitter, customers, 5)
}

#[test]
fn a_try_ends_as_plans_count_it() {
    let catalogue = demo();
    let (shop, population) = (&catalogue.shop, catalogue.population("adults").unwrap());
    let heads = Particles::draw(&Posterior::new(population, &[], None), 256, 3, 0);
    let mut helmets = Candidate::of_models(catalogue.models(), &catalogue);
    helmets.iter_mut().for_each(|helmet| helmet.error = ProfileError { shape_index: 0.0, centre: 0.0 });
    let room = EffectiveHeads::of(&heads, shop.fit.outline);
    let counted = evaluate(&helmets.iter().collect_vec(), &room, &shop.fit, &shop.minutes, (1, 0));
    let mut rounds_seen = [0; 3];
    for (at, helmet) in helmets.iter().enumerate().step_by(7) {
        for index in 0..heads.len() {
            let room = shop.fit.outline.effective(heads.head(index));
            let start = &helmet.size.standard;
            let mut chance = Chance::new(1, "x", 0);
            let Tryout { rounds, truth } = try_on(helmet, room, start, shop, 0.0, &mut chance);
            let number = truth.map_or(0, |reason| 1 + reason as u8);
            assert_eq!(number, counted.reason[at][index], "{} on head {index}", helmet.title());
            assert_eq!(rounds.last().unwrap().reason, truth, "what is heard last is what the best pads leave");
            let minutes: f64 = rounds.iter().map(|round| round.minutes).sum();
            assert!(truth.is_some() || (minutes - counted.minutes[at][index]).abs() < 1e-9, "{minutes}");
            rounds_seen[rounds.len()] += 1;
        }
    }
    assert!(rounds_seen[0] == 0 && rounds_seen[1] > 100 && rounds_seen[2] > 100, "{rounds_seen:?}");
}

#[test]
fn a_journal_is_written_as_a_counter_writes_it() {
    let catalogue = demo();
    let made = visits(&catalogue, &World::drawn(&catalogue, 1.0, 2), 0.08, 60);
    for (visit, number) in made.iter().zip(1..) {
        for (tried, place) in visit.tries.iter().zip(1..) {
            let record = &tried.record;
            assert_eq!(from_line(&to_line(record)).as_ref(), Ok(record));
            assert_eq!((record.customer, record.number), (number, place));
            assert_eq!(record.fits(), tried.truth.is_none(), "a fit is observed truly");
            assert_eq!(record.head.shape.is_some(), visit.situation == 1);
        }
        let fits = visit.records().filter(|record| record.fits()).count();
        assert!(fits <= 1 && visit.records().last().is_none_or(|last| last.fits() == visit.whole.happened));
        assert!(visit.tries.iter().rev().skip(1).all(|tried| tried.truth.is_some()), "nobody goes on after a fit");
    }
    let days: Vec<String> = made.iter().flat_map(Visit::records).map(|record| record.day.to_string()).dedup().collect();
    assert!(days.is_sorted() && days.first().unwrap() == "2026-01-02" && days.len() <= 15, "{days:?}");
    assert!(made.iter().any(|visit| visit.tries.len() > 1) && made.iter().any(|visit| visit.situation == 1));
}

#[test]
fn the_same_seed_brings_the_same_customers_into_every_world() {
    let catalogue = demo();
    let drawn = World::drawn(&catalogue, 1.0, 2);
    let made = visits(&catalogue, &drawn, 0.08, 40);
    assert_eq!(made, visits(&catalogue, &drawn, 0.08, 40));
    let elsewhere = visits(&catalogue, &World::as_written(&catalogue), 0.08, 40);
    assert!(made.iter().zip(&elsewhere).all(|(a, b)| a.head == b.head && a.situation == b.situation));
    assert_ne!(made, elsewhere, "but not the same outcomes");
}

#[test]
fn reasons_are_misreported_as_often_as_said() {
    let catalogue = demo();
    let wrong = |misreport| {
        let made = visits(&catalogue, &World::as_written(&catalogue), misreport, 400);
        let failed = made.iter().flat_map(|visit| &visit.tries).filter(|tried| tried.truth.is_some()).collect_vec();
        let wrong = failed.iter().filter(|tried| tried.record.last().unwrap().reason != tried.truth).count();
        assert!(failed.iter().all(|tried| tried.record.last().unwrap().reason.is_some()));
        (wrong as f64, failed.len() as f64)
    };
    assert!(wrong(0.0).0 < 1.0);
    let (wrong, of) = wrong(0.3);
    assert!((wrong - 0.3 * of).abs() < 4.0 * (of * 0.21).sqrt(), "{wrong} of {of}");
}
