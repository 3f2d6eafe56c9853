//! How often a reason is misreported.
//!
//! Only failures speak of it, because a fit is observed truly. A failure counts by how probable its reason is for the
//! heads that the customer may have: one that fits all of them is no misreport, one that fits none is.

use super::Belief;
use super::helmets::HelmetBelief;
use super::replay::Reader;
use super::testimony::{Departure, HEADS, Heard};
use super::witness::{Told, Witness};
use crate::head::{Outline, Stream};
use crate::profile::Reason;
use itertools::Itertools;
use std::collections::BTreeMap;

/// What the failures of one customer say, as a sum of terms weight × (1 − m)^right × (m / others)^wrong.
pub(super) type Terms = BTreeMap<(u32, u32), f64>;

/// For a head that something can't be true of. It says nothing about the rate and rules no head out.
const SLIP: f64 = 1e-3;

/// Points of the grid from 0 to 1.
const POINTS: u32 = 2000;

/// The rate before and now, its prior a Beta distribution with the shop's mean that counts as so many failures; and how
/// many failures were heard about which geometry speaks.
pub(super) fn misreports(reader: &Reader<'_>, witnesses: &[Witness], helmets: &[HelmetBelief]) -> ([Belief; 2], usize) {
    let (rate, strength) = (reader.was.shop.misreport, reader.was.shop.learning.misreport_failures);
    let failures =
        |witness: &Witness| witness.told.iter().flat_map(|told| &told.trials).filter(|trial| trial.failed()).count();
    let outline = reader.now.shop.fit.outline;
    let failed = witnesses.iter().filter(|witness| failures(witness) > 0);
    let terms = failed.map(|witness| terms(witness, helmets, (reader.seed, outline))).collect_vec();
    // A rate of 0 would be beyond all doubt.
    let prior = ((rate * strength).max(0.5), strength * (1.0 - rate));
    ([rate_of(prior, &[]), rate_of(prior, &terms)], witnesses.iter().map(failures).sum())
}

/// The terms of one customer. Each head meets helmets of its own, from what is believed of them.
fn terms(witness: &Witness, helmets: &[HelmetBelief], (seed, outline): (u64, Outline)) -> Terms {
    let departures = witness.told.iter().map(|told| departures(told, helmets, seed)).collect_vec();
    let mut terms = Terms::new();
    for (head, weight) in witness.heads.weight.iter().enumerate() {
        let (mut right, mut wrong, mut factor) = (0, 0, f64::from(*weight));
        for (told, departures) in witness.told.iter().zip(&departures) {
            for trial in &told.trials {
                match trial.heard(&witness.heads, head, departures[head], outline) {
                    Heard::Fit => {}
                    Heard::Right => right += 1,
                    Heard::Wrong => wrong += 1,
                    Heard::Slip => factor *= SLIP,
                }
            }
        }
        *terms.entry((right, wrong)).or_default() += factor;
    }
    terms
}

/// One possible helmet for each head.
fn departures(told: &Told, helmets: &[HelmetBelief], seed: u64) -> Vec<Departure> {
    let helmet = helmets.iter().find(|belief| belief.model == told.model);
    let shell = helmet.and_then(|belief| belief.shells.iter().find(|shell| shell.shell == told.shell));
    let [index, centre] = [helmet.map(|belief| belief.index[1]), shell.map(|shell| shell.centre[1])];
    let [index, centre] = [index, centre].map(Option::unwrap_or_default);
    let stream = Stream::new(seed, u32::try_from(told.model).unwrap_or(0), "misreports");
    let normals = |dimension| stream.stratified_normals(dimension).take(HEADS);
    let shell = u32::try_from(told.shell + 1).unwrap_or(1);
    let pairs = normals(0).zip(normals(shell));
    pairs.map(|(a, b)| Departure { index: index.mean + a * index.sd, centre: centre.mean + b * centre.sd }).collect()
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
