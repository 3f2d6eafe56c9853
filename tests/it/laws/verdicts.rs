//! The verdict on a head against the plain formulas, for every size of every model.

use super::{RANGE, any_head, formulas};
use crate::oracle_plan::dice::Dice;
use lidladder::fit::{Candidate, SetVerdict, verdict};
use lidladder::head::{Dimensions, EffectiveHead};

#[test]
fn a_verdict_follows_from_the_formulas() {
    let rules = &RANGE.shop.fit;
    let mut dice = Dice::new(5);
    let (mut fitting, mut all) = (0, 0);
    for candidate in Candidate::of_models(RANGE.models(), &RANGE) {
        for _ in 0..2 {
            let head = head_for(&candidate, &mut dice);
            fitting += usize::from(check(&candidate, head));
            all += 1;
        }
    }
    assert!(fitting * 5 > all && fitting * 5 < all * 4, "{fitting} of {all} fit: no test of both");
    assert!(rules.ideal > 0.0);
}

/// A head not far from the one that the size is made for: so some fit, and some fail in every way.
fn head_for(candidate: &Candidate<'_>, dice: &mut Dice) -> Dimensions {
    let [length, breadth, face_width] = formulas::nominal(candidate, &RANGE.shop.fit);
    let (length, breadth) = (length + 6.0 * dice.normal(), breadth + 5.0 * dice.normal());
    let outline = RANGE.shop.fit.outline.factor * formulas::perimeter(length, breadth);
    let face_width = face_width + 6.0 * dice.normal();
    Dimensions { circumference: outline + 6.0 * dice.normal(), length, breadth, face_width }
}

/// Holds every pad set against the formulas; says whether the best one fits.
fn check(candidate: &Candidate<'_>, head: Dimensions) -> bool {
    let rules = &RANGE.shop.fit;
    let title = candidate.title();
    let taken = formulas::room_taken(head, rules);
    let effective = rules.outline.effective(head);
    near(&title, effective.length, taken[0]);
    near(&title, effective.breadth, taken[1]);
    let exact = EffectiveHead { length: taken[0], breadth: taken[1], face_width: taken[2] };
    let nominal = formulas::nominal(candidate, rules);
    let found = verdict(candidate, exact, rules);
    let strain = |pads| formulas::strain(pads, &candidate.size.standard, nominal, taken, rules.ideal);

    let sets = formulas::sets(candidate.shell, candidate.size);
    assert_eq!(found.sets.len(), sets.len(), "{title}: pad sets");
    for pads in &sets {
        let own = found.sets.iter().find(|set| set.pads == *pads).expect("every set is judged");
        let expected = strain(pads);
        for (own, expected) in own.strain.iter().zip(expected) {
            assert_eq!(own.is_some(), expected.is_some(), "{title}: an axis with foam");
            near(&title, own.unwrap_or(0.0), expected.unwrap_or(0.0));
        }
        let uneven: f64 = expected.iter().flatten().map(|strain| (strain - rules.ideal).powi(2)).sum();
        near(&title, own.unevenness, uneven);
        assert_eq!(own.reason, formulas::reason(formulas::direction(expected, rules)), "{title}: {expected:?}");
    }
    in_order(&title, &found.sets);
    found.best().fits()
}

/// Sets that fit come first. Among them the most even leads, and of equally even ones the one with fewest swaps,
/// then the cheapest.
fn in_order(title: &str, sets: &[SetVerdict]) {
    for (a, b) in sets.iter().zip(&sets[1..]) {
        assert!(a.fits() || !b.fits(), "{title}: a set that fits behind one that doesn't");
        if a.fits() && b.fits() {
            assert!(a.unevenness <= b.unevenness + 1e-12, "{title}: less even in front");
        }
    }
    let best = &sets[0];
    let rivals = sets.iter().filter(|set| set.fits() == best.fits() && (set.excess - best.excess).abs() < 1e-12);
    for rival in rivals.filter(|set| (set.unevenness - best.unevenness).abs() < 1e-12) {
        assert!((best.swaps, best.price) <= (rival.swaps, rival.price), "{title}: {best:?} before {rival:?}");
    }
}

#[track_caller]
fn near(title: &str, found: f64, expected: f64) {
    assert!((found - expected).abs() < 1e-8, "{title}: {found} instead of {expected}");
}

/// A narrower good band can turn a fit into a failure, never the other way round.
#[test]
fn a_tighter_band_never_makes_a_fit() {
    let mut dice = Dice::new(9);
    let candidates = Candidate::of_models(RANGE.models(), &RANGE);
    let mut lost = 0;
    for _ in 0..300 {
        let mut tight = RANGE.shop.fit;
        for bands in [&mut tight.head, &mut tight.cheeks] {
            bands.light_below += dice.between(0.0, 0.08);
            bands.tight_above -= dice.between(0.0, 0.08);
        }
        let candidate = &candidates[dice.below(candidates.len())];
        let head = RANGE.shop.fit.outline.effective(head_for(candidate, &mut dice));
        let (wide, tight) = (verdict(candidate, head, &RANGE.shop.fit), verdict(candidate, head, &tight));
        assert!(wide.best().fits() || !tight.best().fits(), "{}: {head:?}", candidate.title());
        lost += u32::from(wide.best().fits() && !tight.best().fits());
    }
    assert!(lost > 5, "{lost}: bands that change nothing test nothing");
}

/// Whatever the head: strains are finite, and the best set is never worse than the standard pads.
#[test]
fn the_best_set_is_no_worse_than_the_standard_pads() {
    let mut dice = Dice::new(21);
    let candidates = Candidate::of_models(RANGE.models(), &RANGE);
    for _ in 0..200 {
        let candidate = &candidates[dice.below(candidates.len())];
        let found = verdict(candidate, RANGE.shop.fit.outline.effective(any_head(&mut dice)), &RANGE.shop.fit);
        let standard = found.sets.iter().find(|set| set.swaps == 0).expect("the standard set");
        assert!(found.best().excess <= standard.excess, "{}", candidate.title());
        assert!(standard.price.minor() == 0 && found.best().strain.iter().flatten().all(|strain| strain.is_finite()));
    }
}
