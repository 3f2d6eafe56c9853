//! Worked examples of normal distributions from textbooks and courses.
//!
//! A population must have means in human range, and these examples speak of other things. Conditioning commutes with a
//! shift of the origin, so each example is moved by a constant per coordinate; no scale is changed. Coordinates that
//! an example doesn't have are independent of it.

use super::{near, one_part, population, reading};
use lidladder::head::{Gaussian, Measure, Particles, Population, Posterior};
use rstest::rstest;

const C: Measure = Measure::Circumference;
const L: Measure = Measure::Length;
const B: Measure = Measure::Breadth;
const W: Measure = Measure::FaceWidth;

/// Where the origin of an example is moved to.
const SHIFT: [f64; 4] = [500.0, 150.0, 150.0, 130.0];

fn moved(mean: [f64; 4], covariance: [[f64; 4]; 4]) -> Population {
    let mean = [0, 1, 2, 3].map(|k| mean[k] + SHIFT[k]);
    population(&[(1.0, Gaussian { mean, covariance })])
}

/// An example with two coordinates, on C and L.
fn pair(mean: [f64; 2], [[a, b], [c, d]]: [[f64; 2]; 2]) -> Population {
    let covariance = [[a, b, 0.0, 0.0], [c, d, 0.0, 0.0], [0.0, 0.0, 1.0, 0.0], [0.0, 0.0, 0.0, 1.0]];
    moved([mean[0], mean[1], 0.0, 0.0], covariance)
}

/// Rencher & Schaalje, Linear Models in Statistics, example 4.4b (from memory): y1, y2 given x1, x2.
#[rstest]
#[case(-2.0, 1.0)]
#[case(0.0, 0.0)]
#[case(3.0, -4.0)]
fn two_given_two(#[case] x1: f64, #[case] x2: f64) {
    let covariance = [[9.0, 0.0, 3.0, 3.0], [0.0, 1.0, -1.0, 2.0], [3.0, -1.0, 6.0, -3.0], [3.0, 2.0, -3.0, 7.0]];
    let example = moved([2.0, 5.0, -2.0, 1.0], covariance);
    let seen = [reading(B, x1 + SHIFT[2], 0.0), reading(W, x2 + SHIFT[3], 0.0)];
    for readings in [[seen[0], seen[1]], [seen[1], seen[0]]] {
        let given = one_part(&example, &readings);
        near("y1", given.mean[0] - SHIFT[0], 3.0 + 10.0 / 11.0 * x1 + 9.0 / 11.0 * x2, 1e-9);
        near("y2", given.mean[1] - SHIFT[1], 14.0 / 3.0 - x1 / 33.0 + 3.0 / 11.0 * x2, 1e-9);
        near("var y1", given.covariance[0][0], 126.0 / 33.0, 1e-9);
        near("cov", given.covariance[0][1], -24.0 / 33.0, 1e-9);
        near("var y2", given.covariance[1][1], 14.0 / 33.0, 1e-9);
    }
}

/// Penn State STAT 505, lesson 6 (from memory): weight given height x is -180 + 5 x, variance 350.
#[rstest]
#[case(65.0)]
#[case(71.0)]
#[case(80.0)]
fn weight_given_height(#[case] height: f64) {
    let example = pair([175.0, 71.0], [[550.0, 40.0], [40.0, 8.0]]);
    let given = one_part(&example, &[reading(L, height + SHIFT[1], 0.0)]);
    near("weight", given.mean[0] - SHIFT[0], -180.0 + 5.0 * height, 1e-9);
    near("variance", given.covariance[0][0], 350.0, 1e-9);
}

/// UIC BSTT 580 final, 2000: height 68, sd 3; weight 165, sd 20; correlation .6: weight given 71 is 177, sd 16.
#[test]
fn weight_of_a_tall_one() {
    let both = 0.6 * 20.0 * 3.0;
    let example = pair([165.0, 68.0], [[400.0, both], [both, 9.0]]);
    let given = one_part(&example, &[reading(L, 71.0 + SHIFT[1], 0.0)]);
    near("weight", given.mean[0] - SHIFT[0], 177.0, 1e-9);
    near("sd", given.covariance[0][0].sqrt(), 16.0, 1e-9);
}

/// The vignette of the bayesrules package: prior mean 3.8, sd 1.12; eight readings of sd 5.8 with mean 3.35. They say
/// as much as one reading of their mean with sd 5.8 / sqrt(8).
#[test]
fn a_mean_of_eight() {
    let example = pair([3.8, 0.0], [[1.12 * 1.12, 0.0], [0.0, 1.0]]);
    let given = one_part(&example, &[reading(C, 3.35 + SHIFT[0], 5.8 / 8.0_f64.sqrt())]);
    near("mean", given.mean[0] - SHIFT[0], 3.696_604, 1e-6);
    near("sd", given.covariance[0][0].sqrt(), 0.982_944, 1e-6);
}

/// Standard tables: 95 % of a normal lie within 1.959964 sd, and chi-squared with 2 degrees of freedom reaches 5.991465
/// with probability .95. A reading's own noise adds to the spread that it is held against.
#[rstest]
#[case(&[1.959_964, 0.0], 1, 0.0, 0.95)]
#[case(&[-1.959_964, 0.0], 1, 0.0, 0.95)]
#[case(&[1.959_964 * std::f64::consts::SQRT_2, 0.0], 1, 1.0, 0.95)]
#[case(&[1.730_819, 1.730_819], 2, 0.0, 0.95)]
fn rarity_is_a_chi_squared_probability(
    #[case] away: &[f64],
    #[case] count: usize,
    #[case] sd: f64,
    #[case] wanted: f64,
) {
    let example = pair([0.0, 0.0], [[1.0, 0.0], [0.0, 1.0]]);
    let seen = [reading(C, away[0] + SHIFT[0], sd), reading(L, away[1] + SHIFT[1], sd)];
    near("rarity", Posterior::new(&example, &seen[..count], None).rarity(), wanted, 1e-6);
}

/// Sheppard's orthant probabilities: all coordinates above their means. Two with correlation .5, -.5 and .8; three and
/// four with all correlations .5 (1/4 and 1/5). Within three times the stated error of a share, 0.0025.
#[rstest]
#[case(2, 0.5, 1.0 / 3.0)]
#[case(2, -0.5, 1.0 / 6.0)]
#[case(2, 0.8, 0.397_583_6)]
#[case(3, 0.5, 1.0 / 4.0)]
#[case(4, 0.5, 1.0 / 5.0)]
fn orthants(#[case] coordinates: usize, #[case] correlation: f64, #[case] wanted: f64) {
    let mut covariance = [[0.0; 4]; 4];
    for (i, row) in covariance.iter_mut().enumerate() {
        for (j, value) in row.iter_mut().enumerate() {
            let tied = i < coordinates && j < coordinates;
            *value = if i == j { 1.0 } else { f64::from(u8::from(tied)) * correlation };
        }
    }
    let example = Posterior::new(&moved([0.0; 4], covariance), &[], None);
    for scramble in 0..4 {
        let heads = Particles::draw(&example, lidladder::head::PARTICLES, 11, scramble);
        let above = |i: usize| (0..coordinates).all(|k| heads.head(i).to_array()[k] > SHIFT[k]);
        let found: f64 = (0..heads.len()).filter(|&i| above(i)).map(|i| heads.weight[i]).sum();
        near("orthant", found, wanted, 3.0 * 0.0025);
    }
}

/// Weights .5, .25, .125, .125 count as 32/11 = 2.909091 heads (Kish's formula, recomputed).
#[test]
fn effective_number_of_heads() {
    let four = vec![1.0; 4];
    let heads = Particles {
        circumference: four.clone(),
        length: four.clone(),
        breadth: four.clone(),
        face_width: four,
        weight: vec![0.5, 0.25, 0.125, 0.125],
    };
    near("effective size", heads.effective_size(), 2.909_091, 1e-6);
}
