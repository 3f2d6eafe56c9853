//! What a plan costs as a whole process, what its parts cost, and what listening to reasons is worth.
//!
//! `cargo bench` prints everything. Figures are CPU time, which other work on the machine disturbs less than wall
//! time; nothing here is an assertion.

#![allow(clippy::print_stdout, clippy::cast_precision_loss, missing_docs)]

mod common;
#[path = "common/generated.rs"]
mod generated;

use generated::large_range;
use itertools::Itertools;
use lidladder::catalogue::{Catalogue, Origin, load};
use lidladder::diag::Sources;
use lidladder::fit::{Candidate, Customer, EffectiveHeads, FIT, evaluate, verdict};
use lidladder::head::{Dimensions, Measure, Particles, Posterior, Reading};
use lidladder::plan::{Lead, Plan, Query, plan};
use std::fs;
use std::time::Instant;

fn main() {
    let catalogue = load(&Origin::BuiltIn, &mut Sources::default()).expect("the demo range is in order");
    println!("whole process, CPU time per run (mean of 40) and peak memory");
    let bin = env!("CARGO_BIN_EXE_lidladder");
    let large = large_range(200);
    let huge = large_range(500);
    for (name, args) in [
        ("built-in range, tape only", vec!["plan", "--circumference", "575"]),
        ("the same as a page", vec!["plan", "--circumference", "575", "--format", "html"]),
        ("built-in range, tape only, 60 cm", vec!["plan", "--circumference", "600"]),
        ("built-in range, all measures", vec!["plan", "-c", "575", "-l", "198", "-b", "153", "-w", "141"]),
        ("built-in range, fit", vec!["fit", "wexmarsh-one", "-c", "575"]),
        ("200 models x 6 sizes, tape only", vec!["plan", "-c", "575", "--profiles", large.to_str().unwrap_or(".")]),
        ("check of the built-in range", vec!["check"]),
        ("check of 500 models x 6 sizes", vec!["check", huge.to_str().unwrap_or(".")]),
    ] {
        let (milliseconds, megabytes) = common::process(bin, &args, 40);
        println!("  {name:<36} {milliseconds:>7.1} ms  {megabytes:>5.1} MB");
    }
    fit_table(&catalogue);
    reasons(&catalogue);
    for folder in [large, huge] {
        let _ = fs::remove_dir_all(folder);
    }
}

/// The table of outcomes against plain loops over every pad set, on the same heads.
fn fit_table(catalogue: &Catalogue) {
    println!("\nfit of 64 heads in every size with every pad on offer, side by side");
    let candidates = Candidate::of_models(catalogue.models(), catalogue);
    let rules = &catalogue.shop.fit;
    let heads = Particles::draw(&customer(catalogue, 575.0).head, 64, 1, 0);
    let effective = EffectiveHeads::of(&heads, rules.outline);
    let exact = exact(&candidates);
    let table = timed(|| {
        let tried = evaluate(&exact.iter().collect_vec(), &effective, rules, &catalogue.shop.minutes, (1, 0));
        tried.reason.iter().flatten().filter(|reason| **reason == FIT).count()
    });
    let plain = timed(|| {
        let fits = |candidate: &Candidate<'_>, head| verdict(candidate, head, rules).best().fits();
        let heads = (0..heads.len()).map(|head| rules.outline.effective(heads.head(head))).collect_vec();
        exact.iter().map(|candidate| heads.iter().filter(|head| fits(candidate, **head)).count()).sum()
    });
    for (name, (seconds, fits)) in [("table", table), ("plain loops", plain)] {
        println!("  {name:<36} {:>9.2} ms  ({fits} fits)", seconds * 1e3);
    }
    println!("  the table takes {:.0} times less", plain.0 / table.0);
}

/// The same candidates with profiles that are right, so that both ways judge the same helmets.
fn exact<'a>(candidates: &[Candidate<'a>]) -> Vec<Candidate<'a>> {
    let mut exact = candidates.to_vec();
    for candidate in &mut exact {
        candidate.error.shape_index = 0.0;
        candidate.error.centre = 0.0;
    }
    exact
}

/// 200 heads of the population, each with a tape reading: the plan against the best fixed order.
fn reasons(catalogue: &Catalogue) {
    const HEADS: usize = 200;
    let population = catalogue.population("adults").expect("part of the demo range");
    let heads = Particles::draw(&Posterior::new(population, &[], None), 256, 7, 0);
    let noise = Particles::draw(&Posterior::new(population, &[], None), 256, 8, 0);
    let mean = population.components()[0].heads.mean[1];
    let made = (0..HEADS).map(|head| {
        // An independent draw of the population, scaled to the tape's error, stands for the slip of the tape.
        let Dimensions { circumference, .. } = heads.head(head);
        let reading = (circumference + (noise.head(head).length - mean) * 3.0 / 7.5).round();
        self::made(catalogue, customer(catalogue, reading))
    });
    let made = made.collect_vec();
    println!("\n{HEADS} heads of the population, tape only: plan against the best fixed order");
    let average = |value: &dyn Fn(&Plan<'_>) -> f64| made.iter().map(value).sum::<f64>() / HEADS as f64;
    println!("                    tries   minutes   no fit");
    let row = |name: &str, t: f64, m: f64, n: f64| println!("  {name:<14} {t:>8.3} {m:>9.2} {:>7.2} %", n * 100.0);
    row(
        "plan",
        average(&|p| p.totals.tries.value),
        average(&|p| p.totals.minutes.value),
        average(&|p| p.totals.no_fit.value),
    );
    row(
        "fixed order",
        average(&|p| p.fixed_order.tries.value),
        average(&|p| p.fixed_order.minutes.value),
        average(&|p| p.fixed_order.no_fit.value),
    );
    let example = self::made(catalogue, customer(catalogue, 575.0));
    println!("  the README's head (57.5 cm):");
    row("  plan", example.totals.tries.value, example.totals.minutes.value, example.totals.no_fit.value);
    let fixed = example.fixed_order;
    row("  fixed order", fixed.tries.value, fixed.minutes.value, fixed.no_fit.value);
    println!("\ngap of the plan to its lower bound, {HEADS} heads: mean, median, 90 % below, largest");
    spread("tape only", &made);
    let measured = |head| self::made(catalogue, measured(catalogue, heads.head(head)));
    spread("all four measures", &(0..HEADS).map(measured).collect_vec());
}

fn spread(name: &str, made: &[Plan<'_>]) {
    let gaps = made.iter().map(|plan| plan.optimality.gap() * 100.0).sorted_by(f64::total_cmp).collect_vec();
    println!(
        "  {name:<20} {:.2} %, {:.2} %, {:.2} %, {:.2} %; {} exact",
        gaps.iter().sum::<f64>() / gaps.len() as f64,
        gaps[gaps.len() / 2],
        gaps[gaps.len() * 9 / 10],
        gaps[gaps.len() - 1],
        made.iter().filter(|plan| plan.optimality.is_exact()).count(),
    );
}

fn made<'a>(catalogue: &'a Catalogue, customer: Customer<'a>) -> Plan<'a> {
    let query = Query {
        customer,
        models: catalogue.models().iter().collect(),
        absent: Vec::new(),
        tries: catalogue.shop.session.tries,
        minutes: None,
        lead: Lead::ShopFirst,
    };
    plan(catalogue, &query)
}

fn customer(catalogue: &Catalogue, circumference: f64) -> Customer<'_> {
    known(catalogue, vec![Reading { measure: Measure::Circumference, value: circumference, sd: 3.0 }])
}

/// A head with all its measures, to the millimetre.
fn measured(catalogue: &Catalogue, head: Dimensions) -> Customer<'_> {
    let Dimensions { circumference, length, breadth, face_width } = head;
    let readings = [
        (Measure::Circumference, circumference, 3.0),
        (Measure::Length, length, 1.5),
        (Measure::Breadth, breadth, 1.5),
        (Measure::FaceWidth, face_width, 1.5),
    ];
    let reading = |(measure, value, sd): (Measure, f64, f64)| Reading { measure, value: value.round(), sd };
    known(catalogue, readings.into_iter().map(reading).collect())
}

fn known(catalogue: &Catalogue, readings: Vec<Reading>) -> Customer<'_> {
    let population = catalogue.population("adults").expect("part of the demo range");
    Customer {
        head: Posterior::new(population, &readings, None),
        readings,
        population: population.id.clone(),
        worn: Vec::new(),
        seed: 1,
    }
}

fn timed(work: impl Fn() -> usize) -> (f64, usize) {
    let fits = work();
    let start = Instant::now();
    let rounds = 5;
    for _ in 0..rounds {
        std::hint::black_box(work());
    }
    (start.elapsed().as_secs_f64() / f64::from(rounds), fits)
}
