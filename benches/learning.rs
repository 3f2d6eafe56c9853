//! How far what is learned lies from the truth of simulated shops, in the standard deviations that are stated, and what it
//! costs: the figures of docs/method.md, section 14.
//!
//! `cargo bench --bench learning` prints everything. Nothing here is an assertion: tests/it/oracle_learn.rs has those.

#![allow(clippy::print_stdout, clippy::cast_precision_loss, missing_docs)]

use itertools::Itertools;
use lidladder::catalogue::{Catalogue, Origin, load};
use lidladder::diag::Sources;
use lidladder::head::Measure;
use lidladder::journal::{Day, Record};
use lidladder::learn::{Belief, KeptApart, Learned, Question, Verdict, learn};
use lidladder::plan::Lead;
use lidladder::profile::{Measurer, Tool};
use lidladder::simulate::{Fitter, Habits, Offset, Shape, Situation, Taken, World, simulate};
use std::time::Instant;

/// Customers of a year.
const CUSTOMERS: u64 = 1500;

/// Fewer tries tell little more than the profile did.
const TRIES: usize = 20;

fn main() {
    let catalogue = load(&Origin::BuiltIn, &mut Sources::default()).expect("the demo range is in order");
    println!(
        "{CUSTOMERS} customers a year; distances from the truth in stated sd, of what was tried {TRIES} times or more"
    );
    println!(
        "                          index: number   rms   max   centre: number   rms   max   changed  misreport  s"
    );
    let mut all = [Vec::new(), Vec::new()];
    for seed in 1..=6 {
        let world = World::drawn(&catalogue, 1.0, seed);
        let far = year(&format!("profiles as far off as they say, {seed}"), &catalogue, &world, seed);
        all.iter_mut().zip(far).for_each(|(all, far)| all.extend(far));
    }
    println!("{:<34} {}", "all of them", all.iter().map(|far| row(far)).join("   "));
    for seed in 7..=9 {
        year(&format!("profiles are right, {seed}"), &catalogue, &World::as_written(&catalogue), seed);
    }
    let mut world = World::as_written(&catalogue);
    let model = catalogue.model("wexmarsh-one").expect("part of the demo range");
    world.set(&model.id, Offset { shape_index: 3.0, ..Offset::none(model) });
    year("Wexmarsh One 3 points rounder, 10", &catalogue, &world, 10);
}

/// One year; the distances of indices and centres.
fn year(name: &str, catalogue: &Catalogue, world: &World<'_>, seed: u64) -> [Vec<f64>; 2] {
    let journal = journal(catalogue, world, seed);
    let population = catalogue.population("adults").expect("part of the demo range");
    let start = Instant::now();
    let found = learn(catalogue, &[journal], &Question { population, kept_apart: KeptApart::Some, seed: 1 });
    let seconds = start.elapsed().as_secs_f64();
    let far = distances(&found, world);
    let [_, misreport] = found.misreport;
    println!(
        "{name:<34} {}   {:>7}  {:.3}±{:.3}  {seconds:.1}",
        far.iter().map(|far| row(far)).join("   "),
        changes(&found),
        misreport.mean,
        misreport.sd
    );
    for model in found.models.iter().filter(|model| model.verdict == Verdict::Change) {
        let truth = world.offset(&model.id).expect("part of the range").shape_index;
        let [before, now] = model.index;
        println!(
            "    {}: index {:.1}±{:.1}, would be {:.1}±{:.1}, is {:.1}",
            model.id,
            before.mean,
            before.sd,
            now.mean,
            now.sd,
            before.mean + truth
        );
    }
    far
}

fn distances(found: &Learned, world: &World<'_>) -> [Vec<f64>; 2] {
    let mut far = [Vec::new(), Vec::new()];
    for model in found.models.iter().filter(|model| model.tries >= TRIES) {
        let truth = world.offset(&model.id).expect("part of the range");
        let [before, now] = model.index;
        far[0].push(distance(now, before.mean + truth.shape_index));
        for (at, shell) in model.shells.iter().enumerate().filter(|(_, shell)| shell.tries >= TRIES) {
            let [before, now] = shell.centre;
            far[1].push(distance(now, before.mean + truth.centre[at]));
        }
    }
    far
}

fn distance(belief: Belief, truth: f64) -> f64 {
    (belief.mean - truth).abs() / belief.sd
}

fn row(far: &[f64]) -> String {
    let rms = (far.iter().map(|far| far * far).sum::<f64>() / far.len().max(1) as f64).sqrt();
    format!("{:>12} {rms:>5.2} {:>5.2}", far.len(), far.iter().copied().fold(0.0, f64::max))
}

fn changes(found: &Learned) -> usize {
    let models = found.models.iter().map(|model| model.verdict);
    let shells = found.models.iter().flat_map(|model| model.shells.iter().map(|shell| shell.verdict));
    models.chain(shells).filter(|verdict| *verdict == Verdict::Change).count()
}

/// A tape for everybody, length and breadth for every third.
fn journal(catalogue: &Catalogue, world: &World<'_>, seed: u64) -> Vec<Record> {
    let shop = &catalogue.shop;
    let population = catalogue.population("adults").expect("part of the demo range");
    let taken = |measure, with, step| Taken::as_assumed(shop, measure, Measurer::Staff, with, step).expect("a line");
    let tape = taken(Measure::Circumference, Tool::Tape, 5.0);
    let more = [Measure::Length, Measure::Breadth].map(|measure| taken(measure, Tool::Caliper, 2.0));
    let situation = |share, taken| Situation { share, taken, shape: Shape::Unsaid };
    let habits = Habits {
        population,
        situations: vec![situation(2.0, vec![tape]), situation(1.0, vec![tape, more[0], more[1]])],
        misreport: shop.misreport,
        from: Day::new(2026, 1, 2).expect("a day"),
        a_day: 5,
    };
    let models = catalogue.models().iter().collect_vec();
    let mut fitter = Fitter::new(catalogue, population, models, Lead::ShopFirst);
    let visits = simulate(world, &habits, &mut fitter, CUSTOMERS, seed);
    visits.iter().flat_map(|visit| visit.records().cloned()).collect()
}
