//! Shares of customers as people read them.

use crate::fit::Quote;
use crate::range::Spread;

/// Of 100, with as many decimals as mean something.
pub(super) fn percent(share: f64) -> String {
    let percent = share * 100.0 + 0.0;
    match percent {
        _ if percent.abs() < 0.005 => if share.abs() > 0.0 { "<.01" } else { "0" }.to_owned(),
        _ if percent.abs() < 1.0 => format!("{percent:.2}"),
        _ => format!("{percent:.1}"),
    }
}

/// Of 100, with the sampling error.
pub(super) fn with_error(quote: Quote) -> String {
    let [value, error] = [quote.value, quote.error].map(|share| share * 100.0);
    if value.abs() < 1.0 { format!("{value:.2}±{error:.2}") } else { format!("{value:.1}±{:.1}", error.max(0.1)) }
}

/// Of 100, from and to.
pub(super) fn between(spread: Spread) -> String {
    let [from, to] = [spread.from, spread.to].map(percent);
    if from == to { from } else { format!("{from} to {to}") }
}

/// Of 100, in whole numbers.
pub(super) fn whole(share: f64) -> String {
    format!("{:.0}", share * 100.0 + 0.0)
}
