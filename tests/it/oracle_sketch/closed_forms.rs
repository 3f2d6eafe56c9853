//! Closed forms from textbooks: a normal prior with normal statements, and a normal prior with a report that is a
//! probit in the unknown.

use super::{demo, experience, meant, size, tried};
use lidladder::fit::{PadSet, foam};
use lidladder::head::{Measure, Posterior, Reading};
use lidladder::profile::{Axis, ByZone, Reason, Zone};
use lidladder::sketch::{Comparison, Fineness, sketch, statements, together};
use rstest::rstest;
use statrs::distribution::{Continuous, ContinuousCDF, Normal};

/// Gelman, Carlin, Stern, Dunson, Vehtari and Rubin, Bayesian Data Analysis, third edition, section 2.5 (the number of
/// the section from memory): a normal prior (μ₀, τ₀) and an observation y with the known error σ give
/// 1/τ₁² = 1/τ₀² + 1/σ² and μ₁ = (μ₀/τ₀² + y/σ²) τ₁².
#[rstest]
#[case((79.0, 1.4), (82.5, 3.0))]
#[case((74.0, 2.0), (74.5, 3.0))]
#[case((80.0, 0.5), (70.0, 4.0))]
fn two_statements_weigh_by_their_precision(#[case] (prior, tau): (f64, f64), #[case] (seen, sigma): (f64, f64)) {
    let precision = 1.0 / (tau * tau) + 1.0 / (sigma * sigma);
    let mean = (prior / (tau * tau) + seen / (sigma * sigma)) / precision;
    let sd = (1.0 / precision).sqrt();
    let said = vec![meant(prior, tau), meant(seen, sigma)];
    let product = together(&said);
    assert!((product.mean - mean).abs() < 1e-9 && (product.sd - sd).abs() < 1e-9, "{product:?}");
    // The grid adds the statements up one by one and knows nothing of the product.
    let made =
        sketch(&demo(), &experience(vec![size("M", (570.0, 580.0), pads())], said, Vec::new()), Fineness::default());
    assert!((made.index.mean.value - mean).abs() < 1e-6, "{:?}", made.index);
    assert!((made.index.sd.value - sd).abs() < 1e-3 * sd, "{:?}", made.index);
    // The normal quantile of 0.9 is 1.2816 (any table of the normal distribution).
    assert!((made.interval.0 - (mean - 1.2816 * sd)).abs() < 0.01, "{:?}", made.interval);
    assert!((made.interval.1 - (mean + 1.2816 * sd)).abs() < 0.01, "{:?}", made.interval);
}

/// The words through the shop's file: Wexmarsh One has 77.5 by eye (±1.0), a comparison is off by 1.0, "rounder" is 1.5
/// more and a round look 82.5±3, all assumptions of `profiles/shop.yaml`.
#[test]
fn words_become_the_normals_of_the_shops_file() {
    let shop = demo();
    let one = shop.model("wexmarsh-one").expect("part of the demo range");
    let said = statements(&shop, &[(one, Comparison::Rounder)], Some(shop.shop.by_eye[2]), None);
    let variance = 1.0 + 1.0;
    let precision = 1.0 / variance + 1.0 / 9.0;
    let mean = (79.0 / variance + 82.5 / 9.0) / precision;
    assert!((together(&said).mean - mean).abs() < 1e-9 && (together(&said).sd - precision.powf(-0.5)).abs() < 1e-9);
    for comparison in Comparison::ALL {
        let [only] = statements(&shop, &[(one, comparison)], None, None)[..] else { panic!("one statement") };
        assert!((only.index.mean - 77.5 - comparison.step(&shop.shop.sketch)).abs() < 1e-9);
    }
}

/// With nothing said, one more of n models: mean and standard deviation of the indices in `profiles/helmets`, with the
/// factor √(1 + 1/n) of a prediction (any textbook of statistics; the sums by hand).
#[test]
fn silence_is_one_more_helmet_of_the_range() {
    let shop = demo();
    let [only] = statements(&shop, &[], None, Some(lidladder::profile::Kind::OffRoad))[..] else { panic!("one") };
    // Off-road: 77 and 80. Their sd is 2.12, more than the least spread of 2.
    assert!((only.index.mean - 78.5).abs() < 1e-9 && (only.index.sd - 4.5_f64.sqrt() * 1.5_f64.sqrt()).abs() < 1e-9);
    let [adventure] = statements(&shop, &[], None, Some(lidladder::profile::Kind::Adventure))[..] else {
        panic!("one")
    };
    assert!((adventure.index.mean - 77.0).abs() < 1e-9, "79.5 and 74.5: {adventure:?}");
    let [all] = statements(&shop, &[], None, None)[..] else { panic!("one") };
    assert!((all.index.mean - 78.46875).abs() < 1e-9, "the 16 indices add up to 1255.5: {all:?}");
}

/// Rasmussen and Williams, Gaussian Processes for Machine Learning, section 3.9 (from memory): a normal prior (μ, σ)
/// and a likelihood Φ((x − m)/v) give, with z = (μ − m)/√(v² + σ²),
/// mean = μ + σ² φ(z)/(Φ(z) √(v² + σ²)) and variance = σ² − σ⁴ φ(z)/((v² + σ²) Φ(z)) (z + φ(z)/Φ(z)).
///
/// Here x is the offset of the size. The shape is known, hair counts for nothing, no report is wrong, the sides are so
/// thick that they are always good, and there are no cheek pads: "loose front to back" is then a probit in the offset.
#[rstest]
#[case(190.0, Reason::LooseFrontToBack)]
#[case(197.0, Reason::LooseFrontToBack)]
#[case(202.0, Reason::LooseFrontToBack)]
#[case(197.0, Reason::BrowRearPress)]
#[case(204.0, Reason::BrowRearPress)]
fn one_loose_axis_is_a_probit(#[case] length: f64, #[case] reason: Reason) {
    let mut shop = demo();
    shop.shop.misreport = 0.0;
    shop.shop.fit.outline.excess_share = 0.0;
    let outline = shop.shop.fit.outline;
    let (own_length, own_breadth) = outline.nominal(575.0, 78.0);
    let readings = vec![
        Reading { measure: Measure::Length, value: length, sd: 4.0 },
        Reading { measure: Measure::Breadth, value: own_breadth, sd: 0.0 },
    ];
    let men = shop.population("men").expect("part of the demo range");
    let heads = Posterior::new(men, &readings, None).parts()[0].1;
    let (at, spread) = (heads.mean[1], heads.covariance[1][1].sqrt());

    // Length of the nominal head per mm of circumference, and the edges of good pads around it.
    let per_mm = own_length / 575.0;
    let (foam, bands, ideal) = (foam(&pads(), Axis::Length), shop.shop.fit.head, shop.shop.fit.ideal);
    let (edge, way) = match reason {
        Reason::LooseFrontToBack => ((ideal - bands.light_below) * foam, 1.0),
        _ => ((ideal - bands.tight_above) * foam, -1.0),
    };
    let (m, v) = (((at + edge) - own_length) / per_mm, spread / per_mm);
    let sigma = shop.shop.profile_errors.by_eye.centre;
    let standard = Normal::standard();
    let whole = (v * v + sigma * sigma).sqrt();
    let z = way * (0.0 - m) / whole;
    let ratio = standard.pdf(z) / standard.cdf(z);
    let mean = way * sigma * sigma * ratio / whole;
    let sd = (sigma * sigma - (sigma * sigma / whole).powi(2) * ratio * (z + ratio)).sqrt();

    let sizes = vec![size("M", (570.0, 580.0), pads())];
    let customers = vec![tried(men, 0, readings, Some(reason))];
    let fine = Fineness { heads: 4096, ..Fineness::default() };
    let made = sketch(&shop, &experience(sizes, vec![meant(78.0, 1e-4)], customers), fine);
    assert!((made.offset.mean.value - mean).abs() < 0.02, "{:?} instead of {mean}", made.offset);
    assert!((made.offset.sd.value - sd).abs() < 0.02, "{:?} instead of {sd}", made.offset);
}

/// Sides that forgive ±18 mm; no cheeks.
fn pads() -> PadSet {
    ByZone::from_fn(|zone| match zone {
        Zone::Brow => Some(12.0),
        Zone::Rear => Some(18.0),
        Zone::Sides => Some(60.0),
        Zone::Crown | Zone::Cheeks => None,
    })
}
