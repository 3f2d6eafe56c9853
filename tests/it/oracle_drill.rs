//! Practice against trainees who always do the same.

mod trainees;

use itertools::Itertools;
use lidladder::catalogue::{Catalogue, Origin, load};
use lidladder::diag::Sources;
use lidladder::drill::{Again, Done, Exercise, Habit, Level, Paper, Spread, Wanted, standings};
use lidladder::journal::Day;
use lidladder::profile::Kind;
use std::sync::LazyLock;
use trainees::Trainee;

static RANGE: LazyLock<Catalogue> =
    LazyLock::new(|| load(&Origin::BuiltIn, &mut Sources::default()).expect("the demo range is in order"));

fn paper(exercises: &[Exercise], level: Level, spread: Spread, again: Again, seed: u64) -> Paper<'static> {
    let wanted = Wanted {
        population: RANGE.population("adults").expect("part of the demo range"),
        models: RANGE.models().iter().filter(|model| model.kind == Kind::FullFace).collect(),
        absent: Vec::new(),
        exercises: exercises.to_vec(),
        level,
        spread,
        again,
        day: Day::new(2026, 3, 14).expect("a day"),
        seed,
    };
    Paper::new(&RANGE, wanted)
}

#[test]
fn explore() {
    for level in Level::ALL {
        for trainee in [Trainee::Planner, Trainee::Popular] {
            let begun = std::time::Instant::now();
            let done =
                trainee.takes(&RANGE, &paper(&[Exercise::Session], level, Spread::Even, Again::Never, 1), 20, 0.0);
            let score = done.iter().map(Done::score).sum::<f64>() / done.len() as f64;
            println!("{level:?} {trainee:?} {score:.3} {:?}", begun.elapsed());
        }
    }
    let habits = [
        Habit::IgnoresStops,
        Habit::PadsOfAnotherShell,
        Habit::SizeUpForCheeks,
        Habit::LongAsIntermediate,
        Habit::IntermediateAsLong,
        Habit::RoundAsIntermediate,
        Habit::IntermediateAsRound,
        Habit::StartsTooLarge,
        Habit::StartsTooSmall,
        Habit::PadsAgainst,
        Habit::WrongWay,
        Habit::HelmetBeforePads,
        Habit::PadsBeyondHelp,
        Habit::GivesUpEarly,
    ];
    for habit in habits {
        let begun = std::time::Instant::now();
        for seed in 1..=3 {
            let done = Trainee::With(habit).takes(
                &RANGE,
                &paper(&Exercise::ALL, Level::Second, Spread::Even, Again::Due, seed),
                40,
                0.0,
            );
            let score = done.iter().map(Done::score).sum::<f64>() / done.len() as f64;
            let weak = standings(&done, &RANGE.shop.practice)
                .into_iter()
                .filter(|weak| weak.slips > 0)
                .map(|weak| {
                    format!(
                        "{} {}/{} {:.2}{}",
                        weak.habit.id(),
                        weak.slips,
                        weak.choices,
                        weak.probability,
                        if weak.is_weak(&RANGE.shop.practice) { "*" } else { "" }
                    )
                })
                .join(", ");
            println!("{} seed {seed} score {score:.3}: {weak}", habit.id());
        }
        println!("   {:?}", begun.elapsed());
    }
}
