//! The sizes that models usually come in.

use super::design::Rung;
use crate::profile::Model;
use crate::unit::Id;
use itertools::Itertools;
use std::collections::BTreeMap;

/// More sizes than this are not told apart: the most common ones count.
pub(super) const MOST_RUNGS: usize = 12;

/// For each label the range of circumference that most models give it, the smallest first. Of two labels with one range
/// the more common one counts.
pub(super) fn ladder<'a>(models: impl IntoIterator<Item = &'a Model>) -> Vec<Rung> {
    let mut counts: BTreeMap<&Id, Vec<(f64, f64)>> = BTreeMap::new();
    for (_, size) in models.into_iter().flat_map(Model::sizes) {
        counts.entry(&size.label).or_default().push(size.circumference);
    }
    let rungs = counts.into_iter().map(|(label, ranges)| (ranges.len(), label, most_common(ranges)));
    let rungs = rungs.sorted_by(|a, b| b.0.cmp(&a.0).then(ends(a.2, b.2)).then(a.1.cmp(b.1)));
    let rungs = rungs.unique_by(|(_, _, range)| (range.0.to_bits(), range.1.to_bits())).take(MOST_RUNGS);
    let rungs = rungs.map(|(_, label, circumference)| Rung { label: label.clone(), circumference });
    rungs.sorted_by(|a, b| ends(a.circumference, b.circumference)).collect()
}

/// Of equally common ones the smallest.
fn most_common(mut ranges: Vec<(f64, f64)>) -> (f64, f64) {
    ranges.sort_by(|a, b| ends(*a, *b));
    let mut best = (0, (0.0, 0.0));
    for (count, range) in ranges.into_iter().dedup_with_count() {
        if count > best.0 {
            best = (count, range);
        }
    }
    best.1
}

fn ends(a: (f64, f64), b: (f64, f64)) -> std::cmp::Ordering {
    a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1))
}
