//! How often a reason is misreported.
//!
//! Only failures speak of it, because a fit is observed truly. A failure counts by how probable its reason is for the
//! heads that the customer may have: one that fits all of them is no misreport, one that fits none is.

use super::Belief;
use super::customers::Visitor;
use super::replay::{Reader, Replayed};
use super::testimony::HEADS;
use crate::fit::FIT;
use crate::profile::Reason;
use std::collections::BTreeMap;

/// What the failures of one customer say, as a sum of terms weight × (1 − m)^right × (m / others)^wrong.
pub(super) type Terms = BTreeMap<(u32, u32), f64>;

/// For a head that something can't be true of. It says nothing about the rate and rules no head out.
const SLIP: f64 = 1e-3;

/// Points of the grid from 0 to 1.
const POINTS: u32 = 2000;

/// The rate, its prior a Beta distribution with this mean that counts as so many failures. Also how many failures were
/// heard about which geometry speaks.
pub(super) fn misreports(reader: &Reader<'_>, visitors: &[&Visitor<'_>]) -> ([Belief; 2], usize) {
    let (rate, strength) = (reader.was.shop.misreport, reader.was.shop.learning.misreport_failures);
    // A rate of 0 would be beyond all doubt.
    let a = (rate * strength).max(0.5);
    let mut failures = 0;
    let mut all = Vec::new();
    for visitor in visitors {
        let replayed = reader.replay(visitor, &visitor.last().head, HEADS);
        failures += replayed.tries.iter().flat_map(|tried| &tried.rounds).filter(|(_, heard)| *heard != FIT).count();
        all.push(terms(&replayed));
    }
    let prior = (a, strength * (1.0 - rate));
    ([rate_of(prior, &[]), rate_of(prior, &all)], failures)
}

/// The terms of one customer.
fn terms(replayed: &Replayed) -> Terms {
    let mut terms = Terms::new();
    for (at, weight) in replayed.heads.heads.weight.iter().enumerate() {
        let (mut right, mut wrong, mut factor) = (0, 0, *weight);
        for (truth, heard) in replayed.tries.iter().flat_map(|tried| &tried.rounds) {
            match (truth[at], *heard) {
                (FIT, FIT) => {}
                (FIT, _) | (_, FIT) => factor *= SLIP,
                (truth, heard) if truth == heard => right += 1,
                _ => wrong += 1,
            }
        }
        *terms.entry((right, wrong)).or_default() += factor;
    }
    terms
}

/// The rate for a Beta(a, b) prior and these customers.
pub(super) fn rate_of((a, b): (f64, f64), customers: &[Terms]) -> Belief {
    let others = u32::try_from(Reason::GEOMETRIC).map_or(1.0, f64::from) - 1.0;
    let log = |point: u32| {
        let rate = (f64::from(point) + 0.5) / f64::from(POINTS);
        let (right, wrong) = ((1.0 - rate).ln(), (rate / others).ln());
        let of_term =
            |((r, w), weight): (&(u32, u32), &f64)| weight * (f64::from(*r) * right + f64::from(*w) * wrong).exp();
        let heard =
            customers.iter().filter(|terms| terms.len() > 1).map(|terms| terms.iter().map(of_term).sum::<f64>().ln());
        let plain = customers.iter().filter(|terms| terms.len() == 1).flatten();
        let plain: f64 = plain.map(|((r, w), _)| f64::from(*r) * right + f64::from(*w) * wrong).sum();
        ((a - 1.0) * (1.0 - (1.0 - rate)).ln() + (b - 1.0) * right + heard.sum::<f64>() + plain, rate)
    };
    Belief::of_logs(&(0..POINTS).map(log).collect::<Vec<_>>())
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    fn plain(right: u32, wrong: u32) -> Vec<Terms> {
        let one = |place: (u32, u32)| Terms::from([(place, 1.0)]);
        (0..right).map(|_| one((1, 0))).chain((0..wrong).map(|_| one((0, 1)))).collect()
    }

    // 437 of 980 after Beta(1, 1): Gelman et al., Bayesian Data Analysis, 2.4 (memory). 5 of 10 after Beta(3, 13): the
    // vignette of the R package bayesrules (memory).
    #[rstest]
    #[case((1.0, 1.0), 980 - 437, 437, 0.446_029, 0.015_854)]
    #[case((3.0, 13.0), 5, 5, 0.307_692, 0.088_823_1)]
    fn failures_beyond_doubt_count_as_in_the_textbook(
        #[case] prior: (f64, f64),
        #[case] right: u32,
        #[case] wrong: u32,
        #[case] mean: f64,
        #[case] sd: f64,
    ) {
        let found = rate_of(prior, &plain(right, wrong));
        assert!((found.mean - mean).abs() < 2e-6 && (found.sd - sd).abs() < 2e-6, "{found:?}");
    }

    #[test]
    fn what_no_head_explains_says_less_than_what_one_does() {
        let doubtful = Terms::from([((0, 1), 0.9), ((1, 0), 0.1)]);
        let found = [plain(0, 1), vec![doubtful], plain(1, 0)].map(|told| rate_of((4.0, 46.0), &told).mean);
        assert!(found[0] > found[1] && found[1] > found[2], "{found:?}");
    }
}
