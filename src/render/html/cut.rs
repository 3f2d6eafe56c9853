//! Heads in helmets.

use super::block::figure;
use crate::fit::{Candidate, at_best};
use crate::head::Moments;
use crate::profile::FitRules;
use crate::render::fit_words::named;
use crate::render::svg::cross_section;

/// The middle one of some heads in a helmet, in the pads that suit it best; `whose` says which heads, `key` tells the picture from
/// others on the page.
pub(super) fn cut(
    candidate: &Candidate<'_>,
    heads: &Moments,
    rules: &FitRules,
    [whose, title, key]: [&str; 3],
) -> String {
    let (section, pads) = at_best(candidate, heads, rules);
    let words = format!("{whose}, with {}.", named(&candidate.size.standard, &pads));
    figure(&cross_section(&section, title, key), &words)
}

/// Those who reach a step of a plan.
pub(super) const WHO_GETS_HERE: &str = "Whoever gets here, on average";
