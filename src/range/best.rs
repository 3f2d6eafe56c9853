//! Which helmet fits a head best.

use super::answers::Answers;
use super::shelf::{Shelf, taken};
use super::tally::Pattern;
use crate::fit::Candidate;
use crate::head::Particles;
use crate::profile::{Axis, FitRules};
use itertools::Itertools;

/// For each head the column that fits it most evenly with some pads on offer (least sum over the axes of squared distances
/// from the ideal strain); of equal ones the first. `None` where nothing fits.
#[must_use]
pub fn best(shelf: &Shelf<'_>, heads: &Particles) -> Vec<Option<usize>> {
    let taken = taken(heads, shelf.rules.outline);
    best_of(shelf, &taken, &Answers::of(shelf, &taken, None))
}

/// The same for heads about which the shelf was asked.
pub(super) fn best_of(shelf: &Shelf<'_>, taken: &[Vec<f64>; 3], answers: &Answers) -> Vec<Option<usize>> {
    let ready = |candidate: &Candidate<'_>| Foams::of(candidate, &shelf.rules);
    let columns = shelf.columns.iter().map(|column| column.candidates.iter().map(ready).collect_vec()).collect_vec();
    let best_of = |(head, pattern): (usize, Pattern<'_>)| {
        let taken = [0, 1, 2].map(|axis| taken[axis][head]);
        let uneven = pattern.on_offer.iter().filter_map(|column| Some((least(&columns[column], taken)?, column)));
        uneven.min_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1))).map(|(_, column)| column)
    };
    answers.patterns().enumerate().map(best_of).collect()
}

fn least(sizes: &[Foams], taken: [f64; 3]) -> Option<f64> {
    sizes.iter().filter_map(|size| size.unevenness(taken)).min_by(f64::total_cmp)
}

/// A size with everything that can be in it.
struct Foams {
    cavity: [f64; 3],
    ideal: f64,
    /// By axis, for each choice of pads; none for an axis without pads.
    axes: [Option<Vec<Choice>>; 3],
}

/// Pads on an axis: their foam, and the rooms from tight to light for which it is good, mm.
struct Choice {
    foam: f64,
    good: (f64, f64),
}

impl Foams {
    fn of(candidate: &Candidate<'_>, rules: &FitRules) -> Self {
        let axes = [0, 1, 2].map(|axis| {
            let bands = rules.bands(Axis::ALL[axis]);
            let options = candidate.axes[axis].as_ref()?.options.iter();
            Some(options.map(|option| Choice { foam: option.foam, good: bands.window(option.foam) }).collect())
        });
        Self { cavity: candidate.cavity(rules), ideal: rules.ideal, axes }
    }

    /// Of the pads that fit, the least; `None` where none do.
    fn unevenness(&self, taken: [f64; 3]) -> Option<f64> {
        let rooms = [0, 1, 2].map(|axis| self.cavity[axis] - taken[axis]);
        let mut total = 0.0;
        for (choices, room) in self.axes.iter().zip(rooms).filter_map(|(choices, room)| Some((choices.as_ref()?, room)))
        {
            let good = choices.iter().filter(|choice| (choice.good.0..=choice.good.1).contains(&room));
            let uneven = good.map(|choice| (1.0 - room / choice.foam - self.ideal).powi(2));
            total += uneven.min_by(f64::total_cmp)?;
        }
        Some(total)
    }
}
