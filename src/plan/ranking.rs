//! Candidates by the probability of a good fit, before anything is tried.

use super::judge::{Pads, Panel};
use crate::fit::{FIT, HeadSet, Outcomes, Quote};
use itertools::Itertools;

/// Candidates that the judges look at: as many as a person would read.
pub(super) const JUDGED: usize = 10;

/// Below this probability a candidate is not listed.
const LISTED_FROM: f64 = 0.02;

/// A candidate in the ranking.
#[derive(Debug, Clone, PartialEq)]
pub struct Ranked {
    /// Which.
    pub candidate: usize,
    /// Probability of a good fit with the pads on offer.
    pub fit: Quote,
    /// Expected minutes of the try.
    pub minutes: f64,
    /// Pads to mount and to bring.
    pub pads: Pads,
}

/// Candidates that fit at all often on the chooser's heads, the best first.
pub(super) fn listed(heads: &HeadSet, tried: &Outcomes) -> Vec<(usize, f64)> {
    let weight = &heads.heads.weight;
    let fit = |reasons: &Vec<u8>| -> f64 {
        reasons.iter().zip(weight).filter(|(reason, _)| **reason == FIT).map(|(_, weight)| weight).sum()
    };
    let mut listed = tried.reason.iter().map(fit).enumerate().filter(|(_, fit)| *fit >= LISTED_FROM).collect_vec();
    listed.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
    listed
}

/// The best of them as the judges see them.
pub(super) fn rank(panel: &Panel<'_>, listed: &[(usize, f64)]) -> Vec<Ranked> {
    let judged = listed.iter().filter_map(|(candidate, _)| {
        let (fit, minutes, pads) = panel.at_root(*candidate)?;
        Some(Ranked { candidate: *candidate, fit, minutes, pads })
    });
    judged.sorted_by(|a, b| b.fit.value.total_cmp(&a.fit.value).then(a.candidate.cmp(&b.candidate))).collect()
}
