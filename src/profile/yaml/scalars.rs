//! What a scalar without quotes stands for, by the rules of `serde_yaml`.

use serde_yaml::Number;

/// Whether it stands for nothing at all.
pub(super) fn is_null(text: &str) -> bool {
    matches!(text, "" | "~" | "null" | "Null" | "NULL")
}

/// A yes or no; `yes` and `no` themselves are texts.
pub(super) fn truth(text: &str) -> Option<bool> {
    match text {
        "true" | "True" | "TRUE" => Some(true),
        "false" | "False" | "FALSE" => Some(false),
        _ => None,
    }
}

/// A number with or without decimals, also `.nan` and `.inf`.
pub(super) fn number(text: &str) -> Option<f64> {
    let unsigned = text.strip_prefix('+');
    match (text, unsigned.unwrap_or(text)) {
        (_, ".inf" | ".Inf" | ".INF") => Some(f64::INFINITY),
        ("-.inf" | "-.Inf" | "-.INF", _) => Some(f64::NEG_INFINITY),
        (".nan" | ".NaN" | ".NAN", _) => Some(f64::NAN),
        // The second sign would be taken as the first.
        (_, rest) if unsigned.is_some() && rest.starts_with(['+', '-']) => None,
        (_, rest) => rest.parse().ok().filter(|number: &f64| number.is_finite()),
    }
}

/// A number without decimals.
pub(super) fn whole(text: &str) -> Option<i128> {
    let number = text.parse::<Number>().ok()?;
    number.as_u64().map(i128::from).or_else(|| number.as_i64().map(i128::from))
}

/// Whether a key of this text would not be a text.
pub(super) fn is_no_text(text: &str) -> bool {
    let may_be_number = |first: u8| first.is_ascii_digit() || matches!(first, b'+' | b'-' | b'.');
    match text.as_bytes().first() {
        None => true,
        Some(b't' | b'T' | b'f' | b'F' | b'n' | b'N' | b'~') => is_null(text) || truth(text).is_some(),
        Some(first) => may_be_number(*first) && text.parse::<Number>().is_ok(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use rstest::rstest;

    #[rstest]
    #[case("12", Some(12.0), Some(12))]
    #[case("-3", Some(-3.0), Some(-3))]
    #[case("012", Some(12.0), None)]
    #[case("1.5", Some(1.5), None)]
    #[case("1e3", Some(1000.0), None)]
    #[case("0x10", None, Some(16))]
    #[case(".inf", Some(f64::INFINITY), None)]
    #[case("12 mm", None, None)]
    #[case("12,5", None, None)]
    #[case("", None, None)]
    fn numbers_are_those_that_a_typed_reader_takes(
        #[case] text: &str,
        #[case] any: Option<f64>,
        #[case] integer: Option<i128>,
    ) {
        assert_eq!(number(text), any);
        assert_eq!(whole(text), integer);
        assert_eq!(serde_yaml::from_str::<u64>(text).ok().map(i128::from), integer.filter(|n| *n >= 0));
    }

    #[test]
    fn a_text_that_would_be_a_document_of_its_own_is_no_number() {
        assert_eq!(number("--- 12"), None);
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 5000, failure_persistence: None, ..ProptestConfig::default() })]
        #[test]
        fn all_numbers_are_those_that_a_typed_reader_takes(text in "[-+.]{0,2}[0-9xobeEn.]{0,6}[0-9a-fA-FiInN.]{0,4}") {
            let bits = |number: Option<f64>| number.map(f64::to_bits);
            prop_assert_eq!(bits(number(&text)), bits(serde_yaml::from_str(&text).ok()));
            let signless = whole(&text).filter(|_| !text.starts_with('-'));
            prop_assert_eq!(signless, serde_yaml::from_str::<u64>(&text).ok().map(i128::from));
            let signed = whole(&text).filter(|number| i64::try_from(*number).is_ok());
            prop_assert_eq!(signed, serde_yaml::from_str::<i64>(&text).ok().map(i128::from));
        }
    }

    #[rstest]
    #[case("brow", false)]
    #[case("true-north", false)]
    #[case("-", false)]
    #[case("True", true)]
    #[case("~", true)]
    #[case("", true)]
    #[case("58", true)]
    #[case(".5", true)]
    fn some_words_are_no_texts(#[case] text: &str, #[case] is_other: bool) {
        assert_eq!(is_no_text(text), is_other);
    }
}
