//! Everything that stands on the shelf: each model in each size, by number.

use super::Targets;
use crate::catalogue::Catalogue;
use crate::fit::Candidate;
use itertools::Itertools;
use std::ops::Range;

/// Candidates by model; a model is known by its place in the catalogue.
pub(super) struct Shelf<'a> {
    pub(super) catalogue: &'a Catalogue,
    pub(super) candidates: Vec<Candidate<'a>>,
    /// By candidate: its model.
    model: Vec<usize>,
    /// By model: its candidates, side by side.
    sizes: Vec<Vec<usize>>,
    /// By model: where a new rule for it may lead.
    targets: Vec<Vec<usize>>,
}

impl<'a> Shelf<'a> {
    pub(super) fn of(catalogue: &'a Catalogue, targets: Targets) -> Self {
        let candidates = Candidate::of_models(catalogue.models(), catalogue);
        let model_of =
            |candidate: &Candidate<'_>| catalogue.models().iter().position(|model| model.id == candidate.model.id);
        let model = candidates.iter().filter_map(model_of).collect_vec();
        let of_model = |wanted: usize| model.iter().positions(|model| *model == wanted).collect_vec();
        let models = 0..catalogue.models().len();
        let may_lead = |from: usize, to: usize| {
            let [from_kind, to_kind] = [from, to].map(|model| catalogue.models()[model].kind);
            from != to && (targets == Targets::AnyType || from_kind == to_kind)
        };
        let targets = models.clone().map(|from| models.clone().filter(|to| may_lead(from, *to)).collect()).collect();
        Self { catalogue, candidates, sizes: models.map(of_model).collect(), model, targets }
    }

    /// Models by number.
    pub(super) fn models(&self) -> Range<usize> {
        0..self.sizes.len()
    }

    /// The model of a candidate.
    pub(super) fn model(&self, candidate: usize) -> usize {
        self.model[candidate]
    }

    /// The candidates of a model.
    pub(super) fn sizes(&self, model: usize) -> &[usize] {
        &self.sizes[model]
    }

    /// Where a new rule for a model may lead.
    pub(super) fn targets(&self, from: usize) -> &[usize] {
        &self.targets[from]
    }

    /// Where a candidate of another list of the same catalogue stands here.
    pub(super) fn place(&self, candidate: &Candidate<'_>) -> Option<usize> {
        let same = |own: &Candidate<'_>| own.model.id == candidate.model.id && own.size.label == candidate.size.label;
        self.candidates.iter().position(same)
    }

    /// How far the middle of a candidate's label is from a circumference, mm.
    pub(super) fn off(&self, candidate: usize, circumference: f64) -> f64 {
        (self.candidates[candidate].size.centre() - circumference).abs()
    }

    /// How much wider one candidate is between its liners than another, by axis, mm.
    pub(super) fn wider(&self, than: usize, candidate: usize) -> [f64; 3] {
        let rules = &self.catalogue.shop.fit;
        let [than, own] = [than, candidate].map(|at| self.candidates[at].cavity(rules));
        [0, 1, 2].map(|axis| own[axis] - than[axis])
    }
}
