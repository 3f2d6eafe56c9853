//! Numbers as a person reads them.

/// A number in digits; one that would take very many of them, with a power of ten (`1e308`).
#[must_use]
pub fn plain(number: f64) -> String {
    let size = number.abs();
    if size == 0.0 || (1e-6..1e12).contains(&size) { format!("{}", number + 0.0) } else { format!("{number:e}") }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case(0.0, "0")]
    #[case(-0.0, "0")]
    #[case(-57.5, "-57.5")]
    #[case(0.000_01, "0.00001")]
    #[case(999_999_999_999.0, "999999999999")]
    #[case(1e308, "1e308")]
    #[case(-5e-324, "-5e-324")]
    fn no_number_takes_many_digits(#[case] number: f64, #[case] expected: &str) {
        assert_eq!(plain(number), expected);
    }
}
