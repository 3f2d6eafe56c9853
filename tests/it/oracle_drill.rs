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

fn cost(done: &Done) -> f64 {
    let took = done.took.expect("a session");
    took.minutes + if took.fits { 0.0 } else { RANGE.shop.minutes.go_without }
}

#[test]
fn explore() {
    for (level, n) in [(Level::First, 60), (Level::Third, 30)] {
        let begun = std::time::Instant::now();
        let mut wanted = paper(&[Exercise::Session], level, Spread::AsTheyCome, Again::Never, 1).wanted().clone();
        wanted.models.truncate(4);
        let paper = Paper::new(&RANGE, wanted);
        let plan = Trainee::Planner.takes(&RANGE, &paper, n, 0.0);
        println!("{level:?} planner {:?}", begun.elapsed());
        let popular = Trainee::Popular.takes(&RANGE, &paper, n, 0.0);
        let v = plan.iter().map(|done| done.plan_minutes).sum::<f64>();
        let more = popular.iter().map(Done::more_minutes).sum::<f64>();
        let (real, worse) = (plan.iter().map(cost).sum::<f64>(), popular.iter().map(cost).sum::<f64>());
        println!("{level:?} v {v:.0} real {real:.0}; popular said {:.0} real {worse:.0}; score {:.3} real {:.3} {:?}", v + more, v / (v + more), real / worse, begun.elapsed());
        let d = plan.iter().zip(&popular).map(|(a, b)| cost(b) - cost(a) - b.more_minutes()).collect_vec();
        let mean = d.iter().sum::<f64>() / d.len() as f64;
        let sd = (d.iter().map(|x| (x - mean).powi(2)).sum::<f64>() / d.len() as f64).sqrt();
        println!("  D {mean:.2} sd {sd:.2} se {:.2}", sd / (d.len() as f64).sqrt());
        let e = plan.iter().map(|a| cost(a) - a.plan_minutes).collect_vec();
        let mean = e.iter().sum::<f64>() / e.len() as f64;
        let sd = (e.iter().map(|x| (x - mean).powi(2)).sum::<f64>() / e.len() as f64).sqrt();
        println!("  E {mean:.2} sd {sd:.2} se {:.2}", sd / (e.len() as f64).sqrt());
    }
    for habit in Habit::ALL {
        let begun = std::time::Instant::now();
        for (seed, slips) in [(1, 0.0), (2, 0.0), (3, 0.1)] {
            let done = Trainee::With(habit).takes(&RANGE, &paper(&Exercise::ALL, Level::First, Spread::Even, Again::Due, seed), 40, slips);
            let score = done.iter().map(Done::score).sum::<f64>() / done.len() as f64;
            let weak = standings(&done, &RANGE.shop.practice).into_iter().filter(|weak| weak.slips > 0).map(|weak| format!("{} {}/{} {:.2}{}", weak.habit.id(), weak.slips, weak.choices, weak.probability, if weak.is_weak(&RANGE.shop.practice) {"*"} else {""})).join(", ");
            println!("{} seed {seed} score {score:.3}: {weak}", habit.id());
        }
        println!("   {:?}", begun.elapsed());
    }
}
