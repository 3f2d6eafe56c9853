//! What is to be learned from a task that is over.

use super::{Done, Habit, Mark, Situation, Task};
use crate::catalogue::Catalogue;
use crate::head::{Dimensions, shape_index};
use crate::unit::Id;
use itertools::Itertools;

/// What is to be learned from a task that is over.
#[derive(Debug, Clone, PartialEq)]
pub struct Lesson<'d> {
    /// The answer that cost most, where one was no good.
    pub worst: Option<&'d Mark>,
    /// The habit that was slipped into: that of the worst answer, or else the first of any.
    pub habit: Option<Habit>,
    /// What was seen, where stops were asked for.
    pub situation: Option<Situation>,
    /// The true head, mm.
    pub head: Dimensions,
    /// Its shape index.
    pub shape_index: f64,
    /// The helmets that truly fit it with pads on offer, as model and size, in the order of the profiles.
    pub fitting: Vec<(Id, Id)>,
}

/// What is to be learned from a task.
#[must_use]
pub fn lesson<'d>(catalogue: &Catalogue, task: &Task<'_>, done: &'d Done) -> Lesson<'d> {
    let head = task.person.head;
    let worst = done.worst();
    let any = || done.marks.iter().filter_map(Mark::slip).min();
    Lesson {
        habit: worst.and_then(Mark::slip).or_else(any),
        worst,
        situation: task.situation,
        head,
        shape_index: shape_index(head.length, head.breadth),
        fitting: fitting(catalogue, task),
    }
}

fn fitting(catalogue: &Catalogue, task: &Task<'_>) -> Vec<(Id, Id)> {
    let opening = &task.opening;
    let models = opening.models.iter().filter_map(|id| catalogue.model(id.as_str()));
    let sizes = models.flat_map(|model| model.sizes().map(|(_, size)| (model.id.clone(), size.label.clone())));
    let is_here = |helmet: &(Id, Id)| !opening.absent.contains(helmet);
    let fits = |(model, size): &(Id, Id)| task.person.best(model, size).is_some_and(|best| best.fits());
    sizes.filter(is_here).filter(fits).collect_vec()
}
