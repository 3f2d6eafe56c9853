//! Whether what plans say comes true in simulated shops: the tables of docs/calibration.md, and what a simulated year costs.
//!
//! `cargo bench --bench calibration` prints everything. Nothing here is an assertion: tests/it/oracle_calibration.rs has
//! those.

#![allow(clippy::print_stdout, clippy::cast_precision_loss, missing_docs)]

use itertools::Itertools;
use lidladder::catalogue::{Catalogue, Origin, load};
use lidladder::diag::Sources;
use lidladder::head::Measure;
use lidladder::journal::Day;
use lidladder::plan::Lead;
use lidladder::profile::{Kind, Measurer, Tool};
use lidladder::score::{Forecast, brier, log_score, murphy, reliability};
use lidladder::simulate::{Fitter, Habits, Shape, Situation, Taken, World, simulate};
use std::time::Instant;

const SHOPS: u64 = 50;
const CUSTOMERS: u64 = 100;

fn main() {
    let catalogue = load(&Origin::BuiltIn, &mut Sources::default()).expect("the demo range is in order");
    let population = catalogue.population("adults").expect("part of the demo range");
    let from = Day::new(2026, 1, 2).expect("a day");
    let habits = Habits { population, situations: situations(&catalogue), misreport: catalogue.shop.misreport, from, a_day: 5 };
    let mut all = [const { Vec::new() }; 4];
    let mut by_situation = vec![Vec::new(); habits.situations.len()];
    for (name, kinds) in [("any", &Kind::ALL[..]), ("full-face", &[Kind::FullFace]), ("off-road", &[Kind::OffRoad])] {
        let models = catalogue.models().iter().filter(|model| kinds.contains(&model.kind)).collect_vec();
        let mut fitter = Fitter::new(&catalogue, population, models, Lead::ShopFirst);
        let start = Instant::now();
        for shop in 1..=SHOPS {
            let world = World::drawn(&catalogue, 1.0, shop);
            for visit in simulate(&world, &habits, &mut fitter, CUSTOMERS, shop) {
                let tried = visit.tries.iter().map(|tried| Forecast {
                    said: tried.record.fit_probability.unwrap_or(0.0),
                    happened: tried.truth.is_none(),
                });
                for (at, forecast) in tried.enumerate() {
                    all[usize::from(at > 0)].push(forecast);
                    if at == 0 { by_situation[visit.situation].push(forecast); }
                }
                all[2].push(visit.whole);
                all[3].extend(visit.listed);
            }
        }
        println!("{name}: {} plans, {:.1} s", fitter.plans(), start.elapsed().as_secs_f64());
    }
    for (name, forecasts) in ["first", "later", "whole", "listed"].into_iter().zip(&all) {
        show(name, forecasts);
    }
    for (at, forecasts) in by_situation.iter().enumerate() {
        show(&format!("first, situation {at}"), forecasts);
    }
}

fn show(name: &str, forecasts: &[Forecast]) {
    println!("\n{name}, n {}, Brier {:.4}, log {:.4}, {:?}", forecasts.len(), brier(forecasts).unwrap_or(0.0), log_score(forecasts).unwrap_or(0.0), murphy(forecasts, 10));
    let (n, said, hits) = (forecasts.len() as f64, forecasts.iter().map(|f| f.said).sum::<f64>(), forecasts.iter().filter(|f| f.happened).count());
    println!(" all said {:.3} happened {:.3}", said / n, hits as f64 / n);
    for row in reliability(forecasts, 10) {
        println!("{:.1}-{:.1} {:>6} {:.3} {:.3} {:.3}-{:.3}", row.from, row.to, row.count, row.said, row.happened(), row.interval.0, row.interval.1);
    }
}

fn situations(catalogue: &Catalogue) -> Vec<Situation> {
    let taken = |measure, with, step| Taken::as_assumed(&catalogue.shop, measure, Measurer::Staff, with, step).expect("assumed");
    let tape = taken(Measure::Circumference, Tool::Tape, 5.0);
    let [length, breadth, face] = [Measure::Length, Measure::Breadth, Measure::FaceWidth].map(|m| taken(m, Tool::Caliper, 1.0));
    vec![
        Situation { share: 0.45, taken: vec![tape], shape: Shape::Unsaid },
        Situation { share: 0.15, taken: vec![tape], shape: Shape::ByEye },
        Situation { share: 0.2, taken: vec![tape, breadth], shape: Shape::Unsaid },
        Situation { share: 0.2, taken: vec![tape, length, breadth, face], shape: Shape::Unsaid },
    ]
}
