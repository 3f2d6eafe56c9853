//! Sizes as the trade writes them: inches, hat sizes, and the letters on a label.

use lidladder::catalogue::{Origin, load};
use lidladder::diag::Sources;
use lidladder::head::read_measure;
use rstest::rstest;
use std::f64::consts::PI;

/// Hat sizes: US = circumference in inches / π to the nearest 1/8, UK = US − 1/8, and one US step is 9.97 mm of
/// circumference (definition of the sizes; 57 cm = US 7 1/8 = UK 7, standard conversion tables, from memory).
#[rstest]
#[case("57cm", 7.125)]
#[case("22.44in", 7.125)]
#[case("55cm", 6.875)]
#[case("60cm", 7.5)]
fn a_reading_has_its_hat_size(#[case] reading: &str, #[case] us: f64) {
    let circumference = read_measure(reading).unwrap().value;
    let size = (circumference / 25.4 / PI * 8.0).round() / 8.0;
    assert!((size - us).abs() < 1e-9, "{reading} is US {size}");
    let step = read_measure("0.125in").unwrap().value * PI;
    assert!((step - 9.97).abs() < 0.01, "one step is {step} mm");
}

/// Letters: XS 53-54, S 55-56, M 57-58, L 59-60, XL 61-62, XXL 63-64 cm (common practice, no source).
#[test]
fn the_labels_of_the_demo_range_are_those_of_the_trade() {
    let letters = [("XS", 53.0), ("S", 55.0), ("M", 57.0), ("L", 59.0), ("XL", 61.0), ("XXL", 63.0)];
    let catalogue = load(&Origin::BuiltIn, &mut Sources::default()).unwrap();
    let mut seen = 0;
    for (_, size) in catalogue.models().iter().flat_map(|model| model.sizes()) {
        let (_, from) = letters.iter().find(|(letter, _)| *letter == size.label.as_str()).unwrap();
        assert!(
            (size.circumference.0 - from * 10.0).abs() < 1e-9
                && (size.circumference.1 - from * 10.0 - 10.0).abs() < 1e-9
        );
        seen += 1;
    }
    assert!(seen > 60, "{seen} sizes");
}
