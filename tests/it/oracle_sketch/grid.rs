//! The grid is fine enough: half its steps move no figure by a tenth of the last digit that is printed.

use super::{demo, experience, meant, size, tried};
use lidladder::catalogue::Catalogue;
use lidladder::head::{Measure, Population, Reading};
use lidladder::profile::Reason;
use lidladder::sketch::{Fineness, Tried, sketch};
use rstest::rstest;

/// Figures are printed to a tenth.
const MOST: f64 = 0.01;

fn population(shop: &Catalogue) -> &Population {
    shop.population("adults").expect("part of the demo range")
}

/// Circumference, length and breadth with errors so many times those of staff with tape and caliper.
fn head(shop: &Catalogue, [c, l, b]: [f64; 3], errors: f64, reason: Option<Reason>) -> Tried {
    let reading = |measure, value, sd: f64| Reading { measure, value, sd: sd * errors };
    let readings = vec![
        reading(Measure::Circumference, c, 3.0),
        reading(Measure::Length, l, 1.5),
        reading(Measure::Breadth, b, 1.5),
    ];
    tried(population(shop), 0, readings, reason)
}

#[rstest]
#[case::as_measured(1.0, (78.5, 3.0))]
#[case::as_measured_after_a_word(1.0, (79.0, 1.4))]
// The hardest for a grid: for such heads the likelihood has steps.
#[case::exactly_known(0.0, (78.5, 3.0))]
#[case::exactly_known_after_a_word(0.0, (79.0, 1.4))]
#[case::hardly_known(3.0, (78.5, 3.0))]
fn half_the_step_changes_nothing_that_is_printed(#[case] errors: f64, #[case] (mean, sd): (f64, f64)) {
    let shop = demo();
    let one = shop.model("wexmarsh-one").expect("part of the demo range");
    let medium = one.sizes().find(|(_, size)| size.label.as_str() == "M").expect("it has an M").1;
    let customers = vec![
        head(&shop, [568.0, 192.0, 155.0], errors, None),
        head(&shop, [578.0, 198.0, 157.0], errors, Some(Reason::TemplesPress)),
        head(&shop, [565.0, 194.0, 148.0], errors, Some(Reason::LooseSides)),
    ];
    let said = experience(vec![size("M", (570.0, 580.0), medium.standard)], vec![meant(mean, sd)], customers);
    let [rough, fine] = [Fineness::default(), Fineness::default().halved()].map(|steps| sketch(&shop, &said, steps));
    for (what, a, b) in [
        ("index", rough.index.mean.value, fine.index.mean.value),
        ("its sd", rough.index.sd.value, fine.index.sd.value),
        ("offset", rough.offset.mean.value, fine.offset.mean.value),
        ("its sd", rough.offset.sd.value, fine.offset.sd.value),
    ] {
        assert!((a - b).abs() < MOST, "{what}: {a} and {b}");
    }
    assert!((rough.interval.0 - fine.interval.0).abs() < 0.05 && (rough.interval.1 - fine.interval.1).abs() < 0.05);
}
