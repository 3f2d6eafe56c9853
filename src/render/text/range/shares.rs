//! Shares of all customers.

use crate::fit::Quote;
use crate::range::Spread;

/// A share in percents with its sampling error, as exact as the error allows: `1.6±0.2 %`, `0.05±0.04 %`.
pub(super) fn share(quote: Quote) -> String {
    let [value, error] = [quote.value, quote.error].map(|share| share * 100.0);
    let digits = digits(error);
    format!("{:.digits$}±{error:.digits$} %", value + 0.0)
}

/// Where nine in ten values lie: `1.3 to 2.2 %`.
pub(super) fn spread(spread: Spread) -> String {
    let [from, to] = [spread.from, spread.to].map(|share| share * 100.0);
    let digits = digits((to - from) / 2.0);
    format!("{:.digits$} to {:.digits$} %", from + 0.0, to + 0.0)
}

/// A share that somebody laid down: `0.2 %`.
pub(super) fn plainly(share: f64) -> String {
    let rounded = (share * 1e6).round() / 1e4;
    format!("{rounded} %")
}

/// Decimals of a figure in percents that is so uncertain.
fn digits(error: f64) -> usize {
    if error < 0.1 { 2 } else { 1 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_share_is_as_exact_as_its_error() {
        assert_eq!(share(Quote { value: 0.01611, error: 0.00197 }), "1.6±0.2 %");
        assert_eq!(share(Quote { value: -0.0, error: 0.00035 }), "0.00±0.04 %");
        assert_eq!(spread(Spread { mean: 0.0, from: 0.0126, to: 0.0226 }), "1.3 to 2.3 %");
        assert_eq!([0.002, 0.001, 0.125].map(plainly), ["0.2 %", "0.1 %", "12.5 %"]);
    }
}
