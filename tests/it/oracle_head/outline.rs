//! The perimeter of an ellipse against a general library.

use lidladder::head::{Outline, ellipse_perimeter};
use serde_json::Value;
use std::sync::mpsc;
use std::thread;
use std::time::Duration;

/// Source: scipy.special.ellipe, by `tests/data/ellipse.py`.
const FIXTURE: &str = include_str!("../../data/ellipse.json");

fn fixture() -> Value {
    serde_json::from_str(FIXTURE).expect("valid JSON")
}

fn number(value: &Value) -> f64 {
    value.as_f64().expect("a number")
}

/// Runs a check that may never end where the code under test has an iteration: then the test fails instead.
fn that_ends(check: impl FnOnce() + Send + 'static) {
    let (sender, receiver) = mpsc::channel();
    thread::spawn(move || {
        check();
        sender.send(()).expect("the test is waiting");
    });
    receiver.recv_timeout(Duration::from_secs(20)).expect("the check neither failed nor hung");
}

fn assert_perimeter(one: f64, two: f64, wanted: f64) {
    for found in [ellipse_perimeter(one, two), ellipse_perimeter(two, one)] {
        assert!((found / wanted - 1.0).abs() < 1e-9, "axes {one} and {two}: {found}, wanted {wanted}");
    }
}

#[test]
fn perimeters() {
    that_ends(|| {
        let fixture = fixture();
        let length = number(&fixture["length"]);
        let rows = fixture["rows"].as_array().expect("rows");
        assert_eq!(rows.len(), 55, "ratios 0.30 to 3.00");
        for row in rows {
            assert_perimeter(length, length * number(&row["ratio"]), number(&row["perimeter"]));
        }
    });
}

/// For these axes the two means of the iteration stay one rounding step apart for ever: it must stop all the same.
#[test]
fn perimeters_whose_means_never_meet() {
    that_ends(|| {
        let fixture = fixture();
        let pairs = fixture["pairs"].as_array().expect("pairs");
        assert_eq!(pairs.len(), 4);
        for pair in pairs {
            assert_perimeter(number(&pair["axes"][0]), number(&pair["axes"][1]), number(&pair["perimeter"]));
        }
    });
}

/// Heads from 160.0 to 229.9 mm long by 0.1 mm and 120.0 to 179.8 mm wide by 0.2 mm. An ellipse is at least as long
/// as the circle of the mean axis and at most as long as that of the root mean square axis (elementary bounds).
#[test]
fn heads_of_every_size_have_a_perimeter() {
    that_ends(|| {
        for length in (1600..2300).map(|tenths| f64::from(tenths) / 10.0) {
            for breadth in (1200..1800).step_by(2).map(|tenths| f64::from(tenths) / 10.0) {
                let found = ellipse_perimeter(length, breadth) / std::f64::consts::PI;
                let least = f64::midpoint(length, breadth) * (1.0 - 1e-12);
                let most = f64::midpoint(length * length, breadth * breadth).sqrt() * (1.0 + 1e-12);
                assert!((least..=most).contains(&found), "axes {length} and {breadth}: {found} times pi");
            }
        }
    });
}

/// The faster formula behind the nominal head is held to the same fixture, for the ratios that interiors have: the
/// nominal head of a perimeter must have that perimeter.
#[test]
fn nominal_heads() {
    let outline = Outline { factor: 1.0, excess_share: 0.5 };
    let fixture = fixture();
    let mut seen = 0;
    for row in fixture["rows"].as_array().expect("rows") {
        let (ratio, perimeter) = (number(&row["ratio"]), number(&row["perimeter"]));
        if (0.6..=1.2).contains(&ratio) {
            let (length, breadth) = outline.nominal(perimeter, 100.0 * ratio);
            assert!((length / 190.0 - 1.0).abs() < 1e-9, "ratio {ratio}: length {length}");
            assert!((breadth / (190.0 * ratio) - 1.0).abs() < 1e-9, "ratio {ratio}: breadth {breadth}");
            seen += 1;
        }
    }
    assert_eq!(seen, 13);
}
