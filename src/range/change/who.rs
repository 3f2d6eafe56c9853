//! Which customers win or lose, in the fitter's words: the size on the label, and the shape.

use super::super::shelf::Shelf;
use crate::head::{Particles, shape_index};
use crate::profile::ShapeWords;
use crate::unit::Id;
use itertools::Itertools;
use std::collections::BTreeMap;

/// Customers of one size and one shape.
#[derive(Debug, Clone, PartialEq)]
pub struct Group {
    /// The label of the size.
    pub size: Id,
    /// The circumference that the range means by it, mm: the mean of the labelled middles.
    pub circumference: f64,
    /// 0 long, 1 intermediate, 2 round oval.
    pub shape: usize,
    /// The share of those who win, or lose, that they are.
    pub share: f64,
}

/// The sizes of a range by the circumference that they mean on average, ascending.
pub(super) struct Labels(Vec<(f64, Id)>);

impl Labels {
    pub(super) fn of(shelf: &Shelf<'_>) -> Self {
        let mut centres = BTreeMap::<&Id, Vec<f64>>::new();
        for candidate in shelf.columns.iter().flat_map(|column| &column.candidates) {
            centres.entry(&candidate.size.label).or_default().push(candidate.size.centre());
        }
        #[expect(clippy::cast_precision_loss, reason = "a few thousand at most")]
        let mean = |centres: Vec<f64>| centres.iter().sum::<f64>() / centres.len() as f64;
        let labels = centres.into_iter().map(|(label, centres)| (mean(centres), label.clone()));
        Self(labels.sorted_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1))).collect())
    }

    /// The groups of the heads that are meant, the largest first.
    pub(super) fn groups(&self, heads: &Particles, words: ShapeWords, is_meant: impl Fn(usize) -> bool) -> Vec<Group> {
        let meant = (0..heads.len()).filter(|head| is_meant(*head));
        let group = |head: usize| {
            let shape = words.place(shape_index(heads.length[head], heads.breadth[head]));
            self.nearest(heads.circumference[head]).map(|size| (size, shape))
        };
        let counts = meant.filter_map(group).counts();
        let all: usize = counts.values().sum();
        #[expect(clippy::cast_precision_loss, reason = "heads that are kept")]
        let share = |count: usize| count as f64 / all as f64;
        let sorted = counts.into_iter().sorted_by_key(|(group, count)| (std::cmp::Reverse(*count), *group));
        let told = sorted.map(|((at, shape), count)| {
            let (circumference, size) = self.0[at].clone();
            Group { size, circumference, shape, share: share(count) }
        });
        told.collect()
    }

    fn nearest(&self, circumference: f64) -> Option<usize> {
        let distance = |at: &usize| (self.0[*at].0 - circumference).abs();
        (0..self.0.len()).min_by(|a, b| distance(a).total_cmp(&distance(b)))
    }
}
