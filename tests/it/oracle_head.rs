//! The head model against numbers from outside: surveys, textbooks and general libraries.
//!
//! Each number names its source. The fixtures in `tests/data` stand beside the scripts that made them.

mod boxes;
mod known;
mod laws;
mod outline;
mod real_heads;
mod survey;
mod textbook;

use lidladder::head::{Component, Gaussian, Measure, Particles, Population, Posterior, Reading, shape_index};
use lidladder::unit::Id;

/// How far a reading by trained hands is off, mm: tape, then caliper three times (assumptions of the method).
const USUAL_SD: [f64; 4] = [3.0, 1.5, 1.5, 1.5];

/// ANSUR II public data, 2012 survey, NATICK/TR-15/007: 4082 men.
pub(crate) const MEN: Gaussian = Gaussian {
    mean: [574.3729, 199.5047, 154.3302, 142.6222],
    covariance: [
        [257.5551, 92.7978, 49.1670, 45.4202],
        [92.7978, 49.3439, 6.8316, 8.0956],
        [49.1670, 6.8316, 30.6015, 22.4497],
        [45.4202, 8.0956, 22.4497, 38.6723],
    ],
};

/// The same survey's 1986 women.
pub(crate) const WOMEN: Gaussian = Gaussian {
    mean: [561.1198, 189.8197, 147.7689, 133.7654],
    covariance: [
        [374.8461, 109.2241, 49.6776, 41.5798],
        [109.2241, 55.4899, 8.5200, 6.7154],
        [49.6776, 8.5200, 26.9556, 17.5780],
        [41.5798, 6.7154, 17.5780, 30.9505],
    ],
};

fn population(parts: &[(f64, Gaussian)]) -> Population {
    let component = |&(share, heads): &(f64, Gaussian)| Component { name: "part".to_owned(), share, heads };
    let id = Id::try_from("heads").expect("a plain name");
    Population::new(id, "Heads".to_owned(), "named in the test".to_owned(), parts.iter().map(component).collect())
        .expect("valid numbers")
}

fn men() -> Population {
    population(&[(1.0, MEN)])
}

fn women() -> Population {
    population(&[(1.0, WOMEN)])
}

fn adults() -> Population {
    population(&[(0.5, MEN), (0.5, WOMEN)])
}

fn named(name: &str) -> Population {
    match name {
        "men" => men(),
        "women" => women(),
        "adults" => adults(),
        other => panic!("no population {other}"),
    }
}

fn reading(measure: Measure, value: f64, sd: f64) -> Reading {
    Reading { measure, value, sd }
}

/// Mean and covariance after exact or noisy readings, for a population of one component.
fn one_part(population: &Population, readings: &[Reading]) -> Gaussian {
    let posterior = Posterior::new(population, readings, None);
    assert_eq!(posterior.parts().len(), 1);
    posterior.parts()[0].1
}

fn shape_indices(heads: &Particles) -> Vec<f64> {
    (0..heads.len()).map(|i| shape_index(heads.length[i], heads.breadth[i])).collect()
}

/// The share of the weight that lies below a value.
fn share_below(values: &[f64], weights: &[f64], limit: f64) -> f64 {
    values.iter().zip(weights).filter(|(value, _)| **value < limit).map(|(_, weight)| weight).sum()
}

/// Weighted quantiles: the first value at which the weight so far reaches each probability.
fn quantiles(values: &[f64], weights: &[f64], probabilities: &[f64]) -> Vec<f64> {
    let mut order: Vec<usize> = (0..values.len()).collect();
    order.sort_by(|&a, &b| values[a].total_cmp(&values[b]));
    let mut reached = 0.0;
    let mut found = Vec::new();
    for index in order {
        reached += weights[index];
        while found.len() < probabilities.len() && reached >= probabilities[found.len()] {
            found.push(values[index]);
        }
    }
    assert_eq!(found.len(), probabilities.len(), "the weights add up to 1");
    found
}

#[track_caller]
fn near(what: &str, found: f64, wanted: f64, tolerance: f64) {
    assert!((found - wanted).abs() <= tolerance, "{what}: {found}, wanted {wanted} within {tolerance}");
}
