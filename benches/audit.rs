//! What an audit of the shop's rules costs, by the number of customers, and beside a plain alternative.
//!
//! `cargo bench --bench audit` prints everything. Figures are CPU time; nothing here is an assertion.

#![allow(clippy::print_stdout, clippy::cast_precision_loss, missing_docs)]

mod common;
#[path = "../tests/it/oracle_audit/plain.rs"]
mod plain;

use lidladder::audit::{Question, Targets, audit};
use lidladder::catalogue::{Origin, load};
use lidladder::diag::Sources;
use lidladder::head::Measure;
use std::time::Instant;

fn main() {
    let bin = env!("CARGO_BIN_EXE_lidladder");
    println!("whole process, CPU time per run and peak memory");
    for (customers, runs) in [("10000", 5), ("100000", 5), ("1000000", 2)] {
        let (milliseconds, megabytes) = common::process(bin, &["fallbacks", "audit", "--customers", customers], runs);
        println!("  audit of {customers:>8} customers {milliseconds:>9.0} ms  {megabytes:>6.1} MB");
    }
    for (name, args) in [
        ("tape and breadth, 20000", vec!["audit", "--customers", "20000", "--measured", "circumference,breadth"]),
        ("proposal, 100000", vec!["propose"]),
    ] {
        let line = [vec!["fallbacks"], args].concat();
        let (milliseconds, megabytes) = common::process(bin, &line, 2);
        println!("  {name:<26} {milliseconds:>10.0} ms  {megabytes:>6.1} MB");
    }
    side_by_side();
}

/// The totals of 4000 customers, and beside them every single change weighed: against customers who come in one by one,
/// whose plain loops weigh nothing.
fn side_by_side() {
    const CUSTOMERS: usize = 4000;
    let catalogue = load(&Origin::BuiltIn, &mut Sources::default()).expect("the demo range is in order");
    let question = Question {
        population: catalogue.population("adults").expect("part of the demo range"),
        measured: vec![(Measure::Circumference, plain::TAPE_SD)],
        reading_step: plain::STEP,
        heads: CUSTOMERS,
        tries: plain::TRIES,
        targets: Targets::AnyType,
        seed: 1,
    };
    let start = Instant::now();
    let made = audit(&catalogue, &question, &mut |_| {});
    let ours = start.elapsed().as_secs_f64();
    let start = Instant::now();
    let one_by_one = plain::one_by_one(&catalogue, CUSTOMERS);
    let plain = start.elapsed().as_secs_f64();
    println!("\n{CUSTOMERS} customers, side by side");
    println!("  audit, {} changes weighed, five verified {:>9.0} ms", made.changes.len(), ours * 1e3);
    println!("  one by one, totals only {:>28.0} ms", plain * 1e3);
    let rows = [("rules", made.graph, one_by_one.graph), ("plan", made.computed, one_by_one.plan)];
    for (name, ours, plain) in rows {
        let [tries, minutes, no_fit] = [plain.tries, plain.minutes, plain.no_fit].map(|sum| sum / CUSTOMERS as f64);
        println!(
            "  {name:<6} tries {:.6} and {tries:.6}, minutes {:.6} and {minutes:.6}, no fit {:.6} and {no_fit:.6}",
            ours.tries.value, ours.minutes.value, ours.no_fit.value
        );
    }
    let counts = [(made.readings, one_by_one.readings), (made.rules.len(), one_by_one.rules_used.len())];
    println!("  readings {:?}, rules followed {:?}", counts[0], counts[1]);
}
