//! Who comes in: heads of a population, each with its own readings as they are written down.

use super::Question;
use super::shelf::Shelf;
use crate::fit::{EffectiveHeads, evaluate};
use crate::head::{Measure, PARTICLES, Particles, Posterior, Reading, Stream};
use crate::plan::{Fold, Problem, Terms};
use itertools::Itertools;
use std::collections::BTreeMap;
use std::ops::Range;

/// Customers with the same readings written down: nobody can tell them apart before something is tried.
pub(super) struct Group {
    pub(super) readings: Vec<Reading>,
    /// One row a customer, with an equal share of all customers; columns as on the shelf.
    pub(super) crowd: Problem,
    /// By customer: the batch that the head came with.
    pub(super) batch: Vec<usize>,
}

/// Readings by measure, in steps; what isn't measured is 0.
pub(super) type Written = [i32; 4];

/// How many heads come in which batch. Batches are drawn independently of each other, so the scatter between them is
/// the error of everything counted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Batches {
    /// How many heads in all.
    heads: usize,
    count: usize,
    /// The scramble number of the first.
    scramble: u32,
}

/// At least so many batches: fewer say little about their scatter.
const FEWEST: usize = 8;

impl Batches {
    /// Batches of nearly equal size, none with more heads than there are strata of profile errors.
    pub(super) fn of(heads: usize, scramble: u32) -> Self {
        Self { heads, count: heads.div_ceil(PARTICLES).max(FEWEST), scramble }
    }

    pub(super) fn numbers(&self) -> Range<usize> {
        0..self.count
    }

    pub(super) fn size(&self, batch: usize) -> usize {
        self.heads * (batch + 1) / self.count - self.heads * batch / self.count
    }

    /// The share of all customers that come with a batch.
    pub(super) fn share(&self, batch: usize) -> f64 {
        real(self.size(batch)) / real(self.heads)
    }
}

/// Draws batches of customers and lets each of them try everything on the shelf. Groups are by what was written down.
pub(super) fn draw(
    shelf: &Shelf<'_>,
    question: &Question<'_>,
    batches: &Batches,
    numbers: Range<usize>,
) -> BTreeMap<Written, Group> {
    let shop = &shelf.catalogue.shop;
    let anybody = Posterior::new(question.population, &[], None);
    let candidates = shelf.candidates.iter().collect_vec();
    let mut groups: BTreeMap<Written, Group> = BTreeMap::new();
    for batch in numbers {
        let scramble = batches.scramble + u32::try_from(batch).unwrap_or(u32::MAX);
        let heads = Particles::draw(&anybody, batches.size(batch), question.seed, scramble);
        let effective = EffectiveHeads::of(&heads, shop.fit.outline);
        let tried = evaluate(&candidates, &effective, &shop.fit, &shop.minutes, (question.seed, scramble));
        for (written, rows) in by_readings(question, &heads, scramble) {
            let group = groups.entry(written).or_insert_with(|| Group::new(question, written, shelf));
            group.batch.resize(group.batch.len() + rows.len(), batch);
            group.crowd.weight.resize(group.batch.len(), 1.0 / real(batches.heads));
            for (own, all) in group.crowd.outcome.iter_mut().zip(&tried.reason) {
                own.extend(rows.iter().map(|row| all[*row]));
            }
            for (own, all) in group.crowd.minutes.iter_mut().zip(&tried.minutes) {
                own.extend(rows.iter().map(|row| all[*row]));
            }
        }
    }
    groups
}

/// How an audit ends a path and hears reasons.
fn terms(question: &Question<'_>, shelf: &Shelf<'_>) -> Terms {
    let shop = &shelf.catalogue.shop;
    Terms {
        misreport: shop.misreport,
        go_without: shop.minutes.go_without,
        tries: question.tries,
        minutes: None,
        fold: Fold::NONE,
    }
}

impl Group {
    fn new(question: &Question<'_>, written: Written, shelf: &Shelf<'_>) -> Self {
        let reading = |&(measure, sd): &(Measure, f64)| {
            let steps = f64::from(written[measure as usize]);
            Reading { measure, value: steps * question.reading_step, sd }
        };
        let columns = shelf.candidates.len();
        let crowd = Problem {
            weight: Vec::new(),
            outcome: vec![Vec::new(); columns],
            minutes: vec![Vec::new(); columns],
            reasons: u8::try_from(crate::profile::Reason::GEOMETRIC).unwrap_or(u8::MAX),
            terms: terms(question, shelf),
        };
        Self { readings: question.measured.iter().map(reading).collect(), crowd, batch: Vec::new() }
    }
}

/// The rows of a batch by what is written down of them.
fn by_readings(question: &Question<'_>, heads: &Particles, scramble: u32) -> BTreeMap<Written, Vec<usize>> {
    let mut written = vec![Written::default(); heads.len()];
    let stream = Stream::new(question.seed, scramble, "written readings");
    for &(measure, sd) in &question.measured {
        let noise = stream.stratified_normals(measure as u32);
        let sd = before_rounding(sd, question.reading_step);
        for ((written, value), noise) in written.iter_mut().zip(heads.values(measure)).zip(noise) {
            #[expect(clippy::cast_possible_truncation, reason = "a few thousand steps at most")]
            let steps = ((value + sd * noise) / question.reading_step).round() as i32;
            written[measure as usize] = steps;
        }
    }
    written.into_iter().enumerate().map(|(row, written)| (written, row)).into_group_map().into_iter().collect()
}

/// The error of a reading before it is written down in steps. Rounding adds a variance of step² / 12, and the shop's
/// figure is that of what stands on the paper.
fn before_rounding(sd: f64, step: f64) -> f64 {
    (sd * sd - step * step / 12.0).max(0.0).sqrt()
}

/// A count as a number to compute with.
#[expect(clippy::cast_precision_loss, reason = "far below 2⁵²")]
pub(super) fn real(count: usize) -> f64 {
    count as f64
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case(1000, 8)]
    #[case(100_000, 25)]
    #[case(1_000_000, 245)]
    fn batches_hold_all_heads_and_fit_the_strata(#[case] heads: usize, #[case] count: usize) {
        let batches = Batches::of(heads, 7);
        assert_eq!(batches.numbers().len(), count);
        assert_eq!(batches.numbers().map(|batch| batches.size(batch)).sum::<usize>(), heads);
        assert!(batches.numbers().all(|batch| batches.size(batch) <= PARTICLES));
        let share: f64 = batches.numbers().map(|batch| batches.share(batch)).sum();
        assert!((share - 1.0).abs() < 1e-12);
    }

    #[test]
    fn rounding_is_part_of_the_error() {
        assert!((before_rounding(3.0, 5.0).powi(2) + 25.0 / 12.0 - 9.0).abs() < 1e-12);
        assert!(before_rounding(1.0, 10.0).abs() < f64::EPSILON, "coarser than the error");
    }
}
