//! Whole posteriors against an independent calculation: weights, means, sds, shape index and rarity.

use super::{named, near, reading};
use lidladder::head::{Measure, Particles, Posterior, Reading, ShapeByEye};
use serde_json::Value;

/// Source: matrix formula and Gauss-Hermite quadrature with numpy and scipy, by `tests/data/posteriors.py`.
const FIXTURE: &str = include_str!("../../data/posteriors.json");

fn number(value: &Value) -> f64 {
    value.as_f64().expect("a number")
}

fn measure(name: &str) -> Measure {
    let position = ["circumference", "length", "breadth", "face-width"].iter().position(|known| *known == name);
    Measure::ALL[position.expect("a measure")]
}

/// The readings of a case in a fixture.
pub(super) fn readings_of(case: &Value) -> Vec<Reading> {
    let one = |r: &Value| {
        reading(measure(r["measure"].as_str().expect("a name")), number(&r["value_mm"]), number(&r["sd_mm"]))
    };
    case["readings"].as_array().expect("readings").iter().map(one).collect()
}

fn posterior_of(case: &Value) -> Posterior {
    let eye = &case["by_eye"];
    let by_eye = eye.is_object().then(|| ShapeByEye {
        mean: number(&eye["mean"]),
        sd: number(&eye["sd"]),
        others: [0, 1].map(|at| number(&eye["others"][at])),
    });
    Posterior::new(&named(case["population"].as_str().expect("a name")), &readings_of(case), by_eye)
}

fn cases() -> Vec<Value> {
    let fixture: Value = serde_json::from_str(FIXTURE).expect("valid JSON");
    fixture["cases"].as_array().expect("cases").clone()
}

#[test]
fn the_closed_form() {
    let cases = cases();
    assert_eq!(cases.len(), 19);
    for case in &cases {
        let found = posterior_of(case);
        near("rarity", found.rarity(), number(&case["rarity"]), 1e-8);
        for (index, (weight, heads)) in found.parts().iter().enumerate() {
            near("weight", *weight, number(&case["weights"][index]), 1e-8);
            for k in 0..4 {
                near("mean", heads.mean[k], number(&case["means_mm"][index][k]), 1e-6);
                near("sd", heads.covariance[k][k].max(0.0).sqrt(), number(&case["sds_mm"][index][k]), 1e-6);
            }
        }
    }
}

/// Readings in any order say the same: the matrix formula of the fixture has no order.
#[test]
fn the_order_of_readings_is_no_matter() {
    for case in cases().iter().filter(|case| case["by_eye"].is_null()) {
        let mut readings = readings_of(case);
        readings.reverse();
        let found = Posterior::new(&named(case["population"].as_str().expect("a name")), &readings, None);
        near("weight", found.parts()[0].0, number(&case["weights"][0]), 1e-8);
        near("mean breadth", found.parts()[0].1.mean[2], number(&case["means_mm"][0][2]), 1e-6);
    }
}

/// 4096 heads give the mean of the shape index to 0.05 and its sd to 0.05, with a shape named by eye too.
#[test]
fn the_shape_index() {
    for case in &cases() {
        let moments = Particles::draw(&posterior_of(case), lidladder::head::PARTICLES, 5, 0).moments();
        near(&format!("index mean of {case}"), moments.mean[4], number(&case["index_mean"]), 0.05);
        near(&format!("index sd of {case}"), moments.sd[4], number(&case["index_sd"]), 0.05);
    }
}
