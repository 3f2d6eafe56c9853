//! Shares of customers as a buyer reads them: so many of 100, with as many digits as the error allows.

use super::heads::capital;
use crate::fit::Quote;
use crate::head::Measure;
use crate::range::{Customers, Spread};
use crate::render::text::thousands;

/// How many heads there are.
pub(in crate::render) fn heads(count: u64) -> String {
    thousands(usize::try_from(count).unwrap_or(usize::MAX))
}

/// Whose heads were counted: a sentence or more.
pub(in crate::render) fn whose(customers: &Customers<'_>) -> String {
    let drawn = Measure::ALL.into_iter().zip(customers.drawn).filter(|(_, count)| *count > 0);
    let lacked =
        drawn.map(|(measure, count)| format!(" {} of {count} is drawn from the population.", capital(measure.name())));
    format!("Heads of {}.{}", customers.whose(), lacked.collect::<String>())
}

/// So many of 100, with the error: `91.8±0.3`.
pub(in crate::render) fn of_hundred(quote: Quote) -> String {
    let (digits, error) = rounded_up(quote.error * 100.0);
    format!("{:.digits$}±{error:.digits$}", quote.value * 100.0 + 0.0)
}

/// The same for a change: `+0.61±0.09`.
pub(in crate::render) fn change(quote: Quote) -> String {
    let (digits, error) = rounded_up(quote.error * 100.0);
    format!("{}±{error:.digits$}", signed(quote.value * 100.0, digits))
}

/// Where nine in ten worlds lie: `90.1 to 93.4`.
pub(in crate::render) fn between(spread: Spread) -> String {
    format!("{:.1} to {:.1}", spread.from * 100.0 + 0.0, spread.to * 100.0 + 0.0)
}

/// The same for a change: `-0.52 to +0.08`.
pub(in crate::render) fn change_between(spread: Spread) -> String {
    format!("{} to {}", signed(spread.from * 100.0, 2), signed(spread.to * 100.0, 2))
}

/// A share with its error and its sign: `1.6±0.2 %`.
pub(in crate::render) fn share(quote: Quote) -> String {
    format!("{} %", of_hundred(quote))
}

/// Where nine in ten worlds lie, as exact as they agree: `1.3 to 2.2 %`.
pub(in crate::render) fn spread(spread: Spread) -> String {
    let digits = if spread.to - spread.from < 0.002 { 2 } else { 1 };
    let [from, to] = [spread.from, spread.to].map(|share| share * 100.0 + 0.0);
    format!("{from:.digits$} to {to:.digits$} %")
}

/// A share that somebody laid down: `0.2 %`.
pub(in crate::render) fn plainly(share: f64) -> String {
    let rounded = (share * 1e6).round() / 1e4;
    format!("{rounded} %")
}

/// Of 100, with as many decimals as a table has room for.
pub(in crate::render) fn percent(share: f64) -> String {
    let percent = share * 100.0 + 0.0;
    match percent {
        _ if percent.abs() < 0.005 => if share.abs() > 0.0 { "<.01" } else { "0" }.to_owned(),
        _ if percent.abs() < 1.0 => format!("{percent:.2}"),
        _ => format!("{percent:.1}"),
    }
}

/// Of 100, in whole numbers.
pub(in crate::render) fn whole(share: f64) -> String {
    format!("{:.0}", share * 100.0 + 0.0)
}

/// Nothing has no sign.
fn signed(value: f64, digits: usize) -> String {
    let text = format!("{value:+.digits$}");
    if text[1..].bytes().all(|byte| matches!(byte, b'0' | b'.')) { text[1..].to_owned() } else { text }
}

/// An error with about one digit that counts, rounded up, and how many decimals that takes: two at most.
fn rounded_up(error: f64) -> (usize, f64) {
    let (digits, scale) = match error {
        _ if error > 1.0 => (0, 1.0),
        _ if error > 0.1 => (1, 10.0),
        _ => (2, 100.0),
    };
    (digits, (error * scale).ceil() / scale)
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case(0.918_4, 0.002_34, "91.8±0.3", "+91.8±0.3")]
    #[case(0.5, 0.02, "50±2", "+50±2")]
    #[case(0.992_14, 0.000_994, "99.21±0.10", "+99.21±0.10")]
    #[case(0.000_456, 0.000_051, "0.05±0.01", "+0.05±0.01")]
    #[case(0.0, 0.0, "0.00±0.00", "0.00±0.00")]
    #[case(0.000_04, 0.000_2, "0.00±0.02", "0.00±0.02")]
    fn figures_have_the_digits_that_count(
        #[case] value: f64,
        #[case] error: f64,
        #[case] share: &str,
        #[case] moved: &str,
    ) {
        let quote = Quote { value, error };
        assert_eq!((of_hundred(quote).as_str(), change(quote).as_str()), (share, moved));
    }

    #[test]
    fn a_spread_is_told_by_its_ends() {
        let spread = Spread { mean: 0.0, from: -0.004_2, to: 0.000_01 };
        assert_eq!(change_between(spread), "-0.42 to 0.00");
        assert_eq!(between(Spread { mean: 0.9, from: 0.895, to: 0.923 }), "89.5 to 92.3");
    }

    #[test]
    fn a_share_is_as_exact_as_its_error() {
        assert_eq!(share(Quote { value: 0.01611, error: 0.00197 }), "1.6±0.2 %");
        assert_eq!(share(Quote { value: -0.0, error: 0.00035 }), "0.00±0.04 %");
        assert_eq!(spread(Spread { mean: 0.0, from: 0.0126, to: 0.0226 }), "1.3 to 2.3 %");
        assert_eq!([0.002, 0.001, 0.125].map(plainly), ["0.2 %", "0.1 %", "12.5 %"]);
        assert_eq!([0.918, 0.0042, 0.00002, 0.0].map(percent), ["91.8", "0.42", "<.01", "0"]);
    }
}
