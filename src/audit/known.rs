//! What a fitter knows and plans for customers with the same readings.

use super::Question;
use super::customers::Group;
use super::follow::{Chooser, Session};
use super::shelf::Shelf;
use crate::fit::{Customer, HeadSet};
use crate::head::{Measure, PARTICLES, Posterior, Reading};
use crate::plan::{Lead, Query, Step, draft};
use itertools::Itertools;

/// Heads that a fitter's knowledge is made of while a graph is followed, at most and at least: they only say which size a
/// target is handed out in. The plan is chosen on as many as ever.
const CHOOSING: [usize; 2] = [PARTICLES / 4, PARTICLES / 32];

/// Outcomes that are kept of all of them: with many readings each group gets fewer heads.
const KEPT: usize = 1 << 27;

pub(super) struct Known {
    chooser: Chooser,
    first: Option<usize>,
    tape: f64,
    pub(super) plan: Option<Step>,
    pub(super) fixed_order: Option<Step>,
    /// By candidate of the two plans: its place on the shelf.
    pub(super) place: Vec<usize>,
}

impl Known {
    /// `groups` is how many there are to be known.
    pub(super) fn of(shelf: &Shelf<'_>, question: &Question<'_>, readings: &[Reading], groups: usize) -> Self {
        let catalogue = shelf.catalogue;
        let customer = Customer {
            head: Posterior::new(question.population, readings, None),
            readings: readings.to_vec(),
            population: question.population.id.clone(),
            worn: Vec::new(),
            seed: question.seed,
        };
        let heads = HeadSet::draw(catalogue, &customer, choosing(groups * shelf.candidates.len()), 0);
        let tried = heads.try_all(catalogue, &customer, &shelf.candidates.iter().collect_vec());
        let tape = readings.iter().find(|reading| reading.measure == Measure::Circumference);
        let tape = tape.map_or_else(|| heads.heads.moments().mean[0], |reading| reading.value);
        let chooser = Chooser { weight: heads.heads.weight, outcome: tried.reason };
        let models = catalogue.models().iter().collect();
        let lead = Lead::ComputedOnly;
        let query = Query { customer, models, absent: Vec::new(), tries: question.tries, minutes: None, lead };
        let draft = draft(catalogue, &query);
        let place = draft.candidates.iter().filter_map(|candidate| shelf.place(candidate)).collect_vec();
        Self {
            chooser,
            first: draft.best.map(|best| place[best]),
            tape,
            plan: draft.plan,
            fixed_order: draft.fixed_order,
            place,
        }
    }

    pub(super) fn session<'s>(&'s self, shelf: &'s Shelf<'s>, group: &'s Group) -> Session<'s> {
        Session { shelf, chooser: &self.chooser, group, first: self.first, tape: self.tape }
    }
}

/// How many heads choose where so many columns of outcomes are kept: a power of two, as low-discrepancy sequences like it.
fn choosing(columns: usize) -> usize {
    let [most, least] = CHOOSING;
    let room = (KEPT / columns.max(1)).clamp(least, most);
    1 << room.ilog2()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn many_readings_leave_each_group_fewer_heads() {
        assert_eq!([1, 34 * 85, 3000 * 85, 100_000 * 85, usize::MAX].map(choosing), [1024, 1024, 512, 128, 128]);
    }
}
