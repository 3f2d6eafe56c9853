//! Shares of heads in boxes against the exact probabilities.

use super::known::readings_of;
use super::named;
use lidladder::head::{Particles, Posterior};
use serde_json::Value;

/// Source: scipy.stats.multivariate_normal.cdf with lower_limit, by `tests/data/box_probabilities.py`. Priors and
/// posteriors (tape; tape and breadth) of men and of the mixture.
const FIXTURE: &str = include_str!("../../data/box_probabilities.json");

/// The error of a share that the program states.
const STATED: f64 = 0.0025;

const SCRAMBLES: u32 = 4;

/// How far a box's share is off, and the variance that a plain random draw of one head would have.
struct Miss {
    error: f64,
    plain: f64,
}

fn four(list: &Value) -> [f64; 4] {
    [0, 1, 2, 3].map(|k| list[k].as_f64().expect("a number"))
}

fn share_inside(heads: &Particles, lower: [f64; 4], upper: [f64; 4]) -> f64 {
    let inside = |i: usize| {
        let head = heads.head(i).to_array();
        (0..4).all(|k| (lower[k]..=upper[k]).contains(&head[k]))
    };
    (0..heads.len()).filter(|&i| inside(i)).map(|i| heads.weight[i]).sum()
}

fn misses(case: &Value) -> Vec<Miss> {
    let population = named(case["population"].as_str().expect("a name"));
    let head = Posterior::new(&population, &readings_of(case), None);
    let mut found = Vec::new();
    for scramble in 0..SCRAMBLES {
        let heads = Particles::draw(&head, lidladder::head::PARTICLES, 3, scramble);
        for entry in case["boxes"].as_array().expect("boxes") {
            let wanted = entry["probability"].as_f64().expect("a number");
            let share = share_inside(&heads, four(&entry["lower_mm"]), four(&entry["upper_mm"]));
            found.push(Miss { error: share - wanted, plain: wanted * (1.0 - wanted) });
        }
    }
    found
}

#[test]
#[expect(clippy::print_stdout, reason = "the comparison with plain draws is for a reader of the test's output")]
fn shares_of_boxes() {
    let fixture: Value = serde_json::from_str(FIXTURE).expect("valid JSON");
    let all: Vec<Miss> = fixture["cases"].as_array().expect("cases").iter().flat_map(misses).collect();
    assert_eq!(all.len(), 48 * SCRAMBLES as usize);
    #[expect(clippy::cast_precision_loss, reason = "a few hundred")]
    let mean = |of: fn(&Miss) -> f64| all.iter().map(of).sum::<f64>() / all.len() as f64;
    let rms = mean(|miss| miss.error * miss.error).sqrt();
    let worst = all.iter().map(|miss| miss.error.abs()).fold(0.0, f64::max);
    let plain = (mean(|miss| miss.plain) / 4096.0).sqrt();
    println!("box shares: error {rms:.4} RMS, {worst:.4} at worst; plain random draws {plain:.4} RMS");
    assert!(rms <= 0.0030, "RMS error {rms}");
    assert!(worst <= 3.0 * STATED, "worst error {worst}");
}
