//! The search for the plan by itself: short lists solved exactly, and the same tables given to a plain script.
//!
//! `cargo bench --bench planner` prints everything. Figures are CPU time; nothing here is an assertion.

#![allow(clippy::print_stdout, clippy::cast_precision_loss, missing_docs)]

use itertools::Itertools;
use lidladder::catalogue::{Catalogue, Origin, load};
use lidladder::diag::Sources;
use lidladder::fit::Customer;
use lidladder::head::{Measure, Particles, Posterior, Reading};
use lidladder::plan::{Fold, Lead, Problem, Query, posed, solve};
use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};

fn main() {
    let catalogue = load(&Origin::BuiltIn, &mut Sources::default()).expect("the demo range is in order");
    short_lists(&catalogue);
    side_by_side(&catalogue);
}

/// The same tables of outcomes for the search and for a plain script: 4 tries, misreports, minutes, going without.
/// Nothing is folded on either side, and the search gets the effort that a plan gets. Counted is the solving and the
/// writing down of the plan, not the making or reading of the table.
fn side_by_side(catalogue: &Catalogue) {
    println!("\nthe same tables side by side (CPU ms of the solving, expected minutes with going without)");
    println!("  candidates  rows       ours  minutes    script  minutes   times");
    let file = std::env::temp_dir().join(format!("lidladder-bench-{}.json", std::process::id()));
    let all = catalogue.models().len();
    let mut sums = Vec::new();
    for (head, models) in [(0, all), (1, all), (2, all), (3, all), (4, all), (0, 5), (3, 5), (6, 5)] {
        let (mut problem, effort) = posed(catalogue, &query(catalogue, head, TAPE, models, 4));
        problem.terms.fold = Fold::NONE;
        let rounds = 100;
        let before = cpu();
        let cost = (0..rounds).map(|_| solve(&problem, effort).cost).fold(0.0, |_, cost| cost);
        let ours = (cpu() - before) * 1e3 / f64::from(rounds);
        fs::write(&file, table(&problem).to_string()).expect("a file of ours");
        let counts = format!("  {:>10} {:>5}", problem.candidates(), problem.weight.len());
        match script(&file) {
            Some((seconds, theirs)) => {
                let script = seconds * 1e3;
                println!("{counts} {ours:>10.2} {cost:>8.3} {script:>9.0} {theirs:>8.3} {:>7.0}", script / ours);
                sums.push((models == all, [ours, cost, script, theirs]));
            }
            None => println!("{counts} {ours:>10.2} {cost:>8.3}    no script: it needs python3 with numpy"),
        }
    }
    let _ = fs::remove_file(file);
    for (name, is_long) in [("long lists", true), ("short lists", false)] {
        let of_these = sums.iter().filter(|(long, _)| *long == is_long).map(|(_, row)| row).collect_vec();
        let mean = |at: usize| of_these.iter().map(|row| row[at]).sum::<f64>() / of_these.len().max(1) as f64;
        let [ours, cost, script, theirs] = [0, 1, 2, 3].map(mean);
        let times = script / ours;
        println!("  {name:<16} {ours:>10.2} {cost:>8.3} {script:>9.0} {theirs:>8.3} {times:>7.0}  (means)");
    }
}

fn table(problem: &Problem) -> serde_json::Value {
    serde_json::json!({
        "weight": problem.weight,
        "outcome": problem.outcome,
        "minutes": problem.minutes,
        "reasons": problem.reasons,
        "misreport": problem.terms.misreport,
        "go_without": problem.terms.go_without,
        "tries": problem.terms.tries,
    })
}

/// CPU seconds and expected minutes of the plain script; none where it can't run. On one thread, as ours.
fn script(table: &Path) -> Option<(f64, f64)> {
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("benches/plain_plan.py");
    let mut command = Command::new("python3");
    command.arg(script).arg(table).stderr(Stdio::null());
    for threads in ["OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS"] {
        command.env(threads, "1");
    }
    let told = String::from_utf8(command.output().ok()?.stdout).ok()?;
    let (seconds, minutes) = told.trim().split_once(' ')?;
    Some((seconds.parse().ok()?, minutes.parse().ok()?))
}

const TAPE: &[Measure] = &[Measure::Circumference];

/// Short lists: a few models of the range, so that so many candidates are left.
fn short_lists(catalogue: &Catalogue) {
    for (measures, name) in [(TAPE, "tape only"), (&Measure::ALL[..], "four measures")] {
        for tries in [4, 5, 6] {
            println!("\nshort lists, {name}, at most {tries} tries");
            println!("  candidates  lists  exact  CPU ms: median  90 %  largest  rows");
            let mut found: Vec<(usize, f64, bool, usize)> = Vec::new();
            for head in 0..30 {
                for models in [3, 4, 5, 6, 7, 8] {
                    let query = query(catalogue, head, measures, models, tries);
                    let (problem, effort) = posed(catalogue, &query);
                    if !(9..=14).contains(&problem.candidates()) {
                        continue;
                    }
                    let before = cpu();
                    let solution = solve(&problem, effort);
                    let seconds = cpu() - before;
                    found.push((
                        problem.candidates(),
                        seconds * 1e3,
                        solution.cost - solution.lower <= 1e-9 * solution.cost,
                        problem.weight.len(),
                    ));
                }
            }
            let groups = found.into_iter().into_group_map_by(|(candidates, ..)| *candidates);
            for (candidates, lists) in groups.into_iter().sorted_by_key(|(candidates, _)| *candidates) {
                let times = lists.iter().map(|list| list.1).sorted_by(f64::total_cmp).collect_vec();
                let exact = lists.iter().filter(|list| list.2).count();
                let rows = lists.iter().map(|list| list.3).max().unwrap_or(0);
                println!(
                    "  {candidates:>10} {:>6} {exact:>6} {:>15.1} {:>6.1} {:>8.1} {rows:>5}",
                    lists.len(),
                    times[times.len() / 2],
                    times[times.len() * 9 / 10],
                    times[times.len() - 1]
                );
            }
        }
    }
}

/// A sampled head of whom these measures are known, and every so many models of the range.
fn query<'a>(catalogue: &'a Catalogue, head: usize, measures: &[Measure], models: usize, tries: usize) -> Query<'a> {
    let population = catalogue.population("adults").expect("part of the demo range");
    let heads = Particles::draw(&Posterior::new(population, &[], None), 256, 7, 0);
    let value = |measure: &Measure| Reading {
        measure: *measure,
        value: heads.values(*measure)[head].round(),
        sd: if *measure == Measure::Circumference { 3.0 } else { 1.5 },
    };
    let readings = measures.iter().map(value).collect_vec();
    let all = catalogue.models().len();
    let customer = Customer {
        head: Posterior::new(population, &readings, None),
        readings,
        population: population.id.clone(),
        worn: Vec::new(),
        seed: 1,
    };
    Query {
        customer,
        models: (0..models).map(|k| &catalogue.models()[(head + k * all / models) % all]).collect(),
        absent: Vec::new(),
        tries,
        minutes: None,
        lead: Lead::ComputedOnly,
    }
}

/// CPU seconds of this process so far.
fn cpu() -> f64 {
    let text = fs::read_to_string("/proc/self/schedstat").unwrap_or_default();
    text.split_whitespace().next().and_then(|nanoseconds| nanoseconds.parse::<f64>().ok()).unwrap_or(0.0) / 1e9
}
