//! Random small problems.

use super::dice::Dice;
use itertools::Itertools;
use lidladder::plan::{Fold, Problem, Terms};

/// Up to 5 candidates, 8 rows and 3 reasons; costs by candidate and row; with and without misreports and a limit of
/// minutes. About every other one goes without so cheaply that giving up early can be right.
pub(super) fn small(seed: u64) -> Problem {
    let mut dice = Dice::new(seed);
    let (candidates, rows) = (1 + dice.below(5), 1 + dice.below(8));
    let reasons = 1 + dice.below(3);
    let terms = Terms {
        misreport: dice.one_of(&[0.0, 0.08, 0.5]),
        go_without: dice.one_of(&[8.0, 30.0, 60.0]),
        tries: 1 + dice.below(4),
        minutes: dice.one_of(&[None, None, Some(9.0), Some(16.0), Some(24.0)]),
        fold: Fold::NONE,
    };
    random(&mut dice, [candidates, rows, reasons], 4.0, terms)
}

/// Six candidates, thirty-two rows, and nobody says why a try fails: every order of the same tries leads to the same
/// belief, so the search meets it again and again, each time with another cost to beat.
pub(super) fn tangled(seed: u64) -> Problem {
    let terms = Terms { misreport: 0.0, go_without: 60.0, tries: 6, minutes: None, fold: Fold::NONE };
    random(&mut Dice::new(seed), [6, 32, 1], 3.0, terms)
}

/// Six candidates, up to 16 rows and 4 reasons, and any rate of misreports: with four reasons, 0.75 makes every report
/// as good as any other.
pub(super) fn wide(seed: u64) -> Problem {
    let mut dice = Dice::new(seed ^ 0x51DE);
    let (rows, reasons) = (4 + dice.below(13), 2 + dice.below(3));
    let terms = Terms {
        misreport: dice.between(0.0, 0.75),
        go_without: dice.one_of(&[15.0, 30.0, 60.0]),
        tries: 2 + dice.below(2),
        minutes: None,
        fold: Fold::NONE,
    };
    random(&mut dice, [6, rows, reasons], 4.0, terms)
}

fn random(dice: &mut Dice, [candidates, rows, reasons]: [usize; 3], spread: f64, terms: Terms) -> Problem {
    let raw = (0..rows).map(|_| dice.between(0.05, 1.0)).collect_vec();
    let total: f64 = raw.iter().sum();
    let outcome = |dice: &mut Dice| u8::try_from(dice.below(reasons + 1)).unwrap();
    let minutes = |dice: &mut Dice| {
        let base = 5.0 + dice.between(-spread, spread);
        (0..rows).map(|_| base + dice.between(0.0, spread)).collect_vec()
    };
    Problem {
        weight: raw.into_iter().map(|share| share / total).collect(),
        outcome: (0..candidates).map(|_| (0..rows).map(|_| outcome(dice)).collect()).collect(),
        minutes: (0..candidates).map(|_| minutes(dice)).collect(),
        reasons: u8::try_from(reasons).unwrap(),
        terms,
    }
}
