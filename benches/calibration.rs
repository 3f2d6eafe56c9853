//! Whether what plans say comes true in simulated shops: the tables of docs/calibration.md, and what a simulated year costs.
//!
//! `cargo bench --bench calibration` prints everything. Nothing here is an assertion: tests/it/oracle_calibration.rs has
//! those.

#![allow(clippy::print_stdout, clippy::cast_precision_loss, missing_docs)]

#[path = "../tests/it/oracle_calibration/counter.rs"]
mod counter;
#[path = "../tests/it/oracle_calibration/shops.rs"]
mod shops;

use itertools::Itertools;
use lidladder::catalogue::{Catalogue, Origin, load};
use lidladder::diag::Sources;
use lidladder::profile::Kind;
use lidladder::score::{Row, brier, log_score, murphy, reliability};
use shops::{Design, Gap, SITUATIONS, Said, Told, between, forecasts, situations, told};
use std::time::Instant;

fn main() {
    let catalogue = load(&Origin::BuiltIn, &mut Sources::default()).expect("the demo range is in order");
    let honest = honest(&catalogue);
    for (name, said) in honest.tables() {
        table(name, said);
    }
    println!("\nfirst tries by what is known          number   said  happened    gap in errors");
    for (at, name) in SITUATIONS.iter().enumerate() {
        let those: Vec<Said> = honest.first.iter().filter(|said| said.situation == at).copied().collect();
        totals(name, &those);
    }
    at_the_counter(&catalogue);
    single_shops(&honest.first);
    wrong(&catalogue);
    year(&catalogue);
}

/// 150 shops with a hundred customers each, who may try anything, or full-face helmets, or off-road ones.
fn honest(catalogue: &Catalogue) -> Told {
    let design = |shops, kinds: &[Kind]| Design {
        shops,
        customers: 100,
        kinds: kinds.to_vec(),
        situations: situations(catalogue, [0.45, 0.15, 0.2, 0.2], 1.0),
        profile_errors: 1.0,
        misreport: catalogue.shop.misreport,
    };
    let start = Instant::now();
    let made = told(catalogue, &design(0..50, &Kind::ALL))
        .and(told(catalogue, &design(50..100, &[Kind::FullFace])))
        .and(told(catalogue, &design(100..150, &[Kind::OffRoad])));
    println!("{} customers, {} plans, {:.0} s", made.customers, made.plans, start.elapsed().as_secs_f64());
    made
}

/// Sessions at the counter: twelve shops with forty customers each.
fn at_the_counter(catalogue: &Catalogue) {
    let start = Instant::now();
    let told = counter::at_the_counter(catalogue, 200..212, 40);
    let each = told.customers as f64;
    println!(
        "\n{} sessions, {:.0} s: {:.1} % fitted, {:.2} helmets and {:.1} minutes a customer",
        told.customers,
        start.elapsed().as_secs_f64(),
        100.0 * told.fitted as f64 / each,
        told.helmets as f64 / each,
        told.minutes / each
    );
    println!("pads on the head at the counter       number   said  happened    gap in errors");
    totals("the first helmet", &told.first);
    totals("other pads in it", &told.swaps);
    totals("a further helmet", &told.further);
}

/// How far first tries of a single shop come true more or less often than is said, because its customers share its helmets.
fn single_shops(said: &[Said]) {
    let shops = said.iter().into_group_map_by(|said| said.shop);
    let mean = |value: fn(&[&Said]) -> f64| shops.values().map(|said| value(said)).sum::<f64>() / shops.len() as f64;
    let scatter = mean(|said| Gap::of(said.iter().copied()).mean.powi(2));
    let alone = mean(|said| {
        said.iter().map(|one| one.forecast.said * (1.0 - one.forecast.said)).sum::<f64>() / (said.len() as f64).powi(2)
    });
    println!(
        "\nfirst tries of a single shop, happened minus said, sd over {} shops: {:.1} points",
        shops.len(),
        100.0 * scatter.sqrt()
    );
    println!(
        "  by chance alone it would be {:.1}; its helmets make {:.1}",
        100.0 * alone.sqrt(),
        100.0 * (scatter - alone).max(0.0).sqrt()
    );
}

/// Shops that are wrong about themselves.
fn wrong(catalogue: &Catalogue) {
    println!("\nfirst tries of shops, tape only       number   said  happened    gap in errors");
    for (name, profile_errors, tape_errors) in [
        ("right about themselves", 1.0, 1.0),
        ("profiles three times as far off", 3.0, 1.0),
        ("tape twice as far off", 1.0, 2.0),
        ("tape three times as far off", 1.0, 3.0),
        ("profiles exact", 0.0, 1.0),
    ] {
        let mut situations = situations(catalogue, [1.0, 0.0, 0.0, 0.0], 5.0);
        situations[0].taken[0].true_sd *= tape_errors;
        let misreport = catalogue.shop.misreport;
        let kinds = Kind::ALL.to_vec();
        let design = Design { shops: 200..250, customers: 100, kinds, situations, profile_errors, misreport };
        totals(name, &told(catalogue, &design).first);
    }
}

fn year(catalogue: &Catalogue) {
    let design = Design {
        shops: 1..2,
        customers: 1500,
        kinds: Kind::ALL.to_vec(),
        situations: situations(catalogue, [0.70, 0.15, 0.12, 0.03], 2.0),
        profile_errors: 1.0,
        misreport: catalogue.shop.misreport,
    };
    let start = Instant::now();
    let made = told(catalogue, &design);
    println!("\na year of {} customers: {} plans, {:.1} s", made.customers, made.plans, start.elapsed().as_secs_f64());
}

fn totals(name: &str, said: &[Said]) {
    let (count, gap) = (said.len() as f64, Gap::of(said));
    let mean = said.iter().map(|said| said.forecast.said).sum::<f64>() / count;
    println!("  {name:<35}{count:>7}{:>7.1}{:>9.1} %{:>15.1}", 100.0 * mean, 100.0 * (mean + gap.mean), gap.sigmas());
}

/// A reliability table of at most 80 columns. In the drawing `-` is the interval, `o` what happened, `|` what was said.
fn table(name: &str, said: &[Said]) {
    let all = forecasts(said);
    println!("\n{name}: {} of them, %\n", all.len());
    println!("      said  number   mean  happened  interval  errors  0        50       100");
    for row in reliability(&all, 10) {
        let (low, high) = row.interval;
        println!(
            "{:>4} to{:>4}{:>7}{:>8.1}{:>9.1}{:>6.0} to{:>3.0}{:>7.1}   {}",
            100.0 * row.from,
            100.0 * row.to,
            row.count,
            100.0 * row.said,
            100.0 * row.happened(),
            100.0 * low,
            100.0 * high,
            tenths(Gap::of(between(said, row.from, row.to)).sigmas()),
            drawing(&row)
        );
    }
    let (Some(brier), Some(log), Some(parts)) = (brier(&all), log_score(&all), murphy(&all, 10)) else { return };
    println!("\n  Brier score {brier:.4}, mean log score {log:.4}, gap of all {:.1} errors", Gap::of(said).sigmas());
    println!(
        "  = reliability {:.4} - resolution {:.4} + uncertainty {:.4}, within tenths {:+.4}",
        parts.reliability, parts.resolution, parts.uncertainty, parts.within
    );
}

/// Rounded, and nothing is minus nothing.
fn tenths(value: f64) -> f64 {
    (10.0 * value).round() / 10.0 + 0.0
}

fn drawing(row: &Row) -> String {
    let place = |share: f64| (share * 20.0).round() as usize;
    let mut line = vec![' '; 21];
    line[place(row.interval.0)..=place(row.interval.1)].fill('-');
    line[place(row.said)] = '|';
    line[place(row.happened())] = 'o';
    line.into_iter().collect::<String>().trim_end().to_owned()
}
