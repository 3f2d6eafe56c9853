//! One customer against one model: which size, which pads, and why not the others.

use super::{Candidate, CrossSection, Customer, Estimate, HeadSet, Quote, Verdict, cross_section, estimate, verdict};
use super::{FIT, Outcomes};
use crate::catalogue::Catalogue;
use crate::head::Dimensions;
use crate::profile::{FitRules, Model};
use crate::unit::Id;
use itertools::Itertools;

/// One customer against one model.
#[derive(Debug, Clone, PartialEq)]
pub struct Inspection<'a> {
    /// The head as inferred.
    pub head: Estimate,
    /// Every size of the model with its chance, in the order of the profile.
    pub sizes: Vec<SizeChance>,
    /// The size that is looked at: the one asked for, else the one that fits most often.
    pub candidate: Candidate<'a>,
    /// Its chance of a good fit with some pads on offer, the errors of head and profile included.
    pub fit: Quote,
    /// The expected head in it, the profile taken at its word.
    pub verdict: Verdict,
    /// How often each axis (length, breadth, face width) is too loose, good, too tight, whatever the pads.
    pub classes: [[Quote; 3]; 3],
}

/// The chance of a size.
#[derive(Debug, Clone, PartialEq)]
pub struct SizeChance {
    /// The size.
    pub size: Id,
    /// Its chance of a good fit.
    pub fit: Quote,
}

impl Inspection<'_> {
    /// The expected head in the helmet with the best pads.
    #[must_use]
    pub fn section(&self, rules: &FitRules) -> CrossSection {
        cross_section(&self.candidate, self.verdict.best(), &self.head.moments(), rules)
    }
}

/// Looks at one model. `size` must be one of its labels; `None` picks the size that fits most often.
/// `None` for a model without that size.
#[must_use]
pub fn inspect<'a>(
    catalogue: &'a Catalogue,
    customer: &Customer<'a>,
    model: &'a Model,
    size: Option<&Id>,
) -> Option<Inspection<'a>> {
    let candidates = Candidate::of_models([model], catalogue);
    let sets = HeadSet::judges(catalogue, customer);
    let tried = sets.iter().map(|set| set.try_all(catalogue, customer, &candidates.iter().collect_vec())).collect_vec();
    let fits = (0..candidates.len())
        .map(|at| {
            Quote::of(sets.iter().zip(&tried).map(|(set, tried)| share(set, |head| tried.reason[at][head] == FIT)))
        })
        .collect_vec();
    let chosen = match size {
        Some(label) => candidates.iter().position(|candidate| candidate.size.label == *label)?,
        None => (0..fits.len()).rev().max_by(|a, b| fits[*a].value.total_cmp(&fits[*b].value))?,
    };
    let head = estimate(catalogue, &customer.head, &sets);
    let [c, l, b, w, _] = head.mean.map(|quote| quote.value);
    let expected = catalogue.shop.fit.outline.effective(Dimensions::from_array([c, l, b, w]));
    let candidate = candidates[chosen].clone();
    Some(Inspection {
        sizes: candidates
            .iter()
            .zip(&fits)
            .map(|(c, fit)| SizeChance { size: c.size.label.clone(), fit: *fit })
            .collect(),
        fit: fits[chosen],
        verdict: verdict(&candidate, expected, &catalogue.shop.fit),
        classes: [0, 1, 2].map(|axis| classes(&candidate, chosen, axis, &sets, &tried)),
        candidate,
        head,
    })
}

fn classes(candidate: &Candidate<'_>, at: usize, axis: usize, sets: &[HeadSet], tried: &[Outcomes]) -> [Quote; 3] {
    let class = |tried: &Outcomes, head: usize| {
        let cell = usize::from(tried.cells[at][axis][head]);
        candidate.axes[axis].as_ref().map_or(0, |table| table.cells[cell].class)
    };
    [-1, 0, 1].map(|wanted| {
        Quote::of(sets.iter().zip(tried).map(|(set, tried)| share(set, |head| class(tried, head) == wanted)))
    })
}

/// How much of a set's heads are wanted.
fn share(set: &HeadSet, wanted: impl Fn(usize) -> bool) -> f64 {
    set.heads.weight.iter().enumerate().filter(|(head, _)| wanted(*head)).map(|(_, weight)| weight).sum()
}
