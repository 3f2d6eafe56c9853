//! What somebody did in a run, at a glance.

use super::{Done, Habit, Mark, Past, Return, Scores, Standing, Wanted, scores, standings};
use crate::profile::PracticeRules;

/// The result of a run.
#[derive(Debug, Clone)]
pub struct Sheet<'r, 'a> {
    /// What was wanted.
    pub wanted: &'r Wanted<'a>,
    /// How many tasks there were to be.
    pub tasks: u64,
    /// What came of those that were finished, in order.
    pub done: &'r [Done],
    /// How good it was.
    pub scores: Scores,
    /// Signs of earlier runs, of which the last count for habits, too.
    pub earlier: usize,
    /// Habits to practise, the most pressing first.
    pub weak: Vec<Standing>,
    /// Habits that were seldom slipped into, with enough choices to say so.
    pub in_hand: Vec<Standing>,
    /// Habits that nothing can be said of yet, though there was a choice.
    pub open: Vec<Standing>,
    /// When the like of slips comes again; empty where nothing is kept.
    pub returns: Vec<Return>,
}

impl<'r, 'a> Sheet<'r, 'a> {
    /// The result of these finished tasks, by somebody with this past before them.
    #[must_use]
    pub fn new(
        rules: &PracticeRules,
        wanted: &'r Wanted<'a>,
        tasks: u64,
        done: &'r [Done],
        earlier: &Past,
        returns: Vec<Return>,
    ) -> Self {
        let (weak, others): (Vec<_>, Vec<_>) =
            standings(done, earlier, rules).into_iter().partition(|standing| standing.is_weak(rules));
        let (in_hand, open) = others.into_iter().partition(|standing| is_in_hand(standing, rules));
        Self { wanted, tasks, done, scores: scores(done), earlier: earlier.0.len(), weak, in_hand, open, returns }
    }

    /// The slip into a habit that cost most, and the task that it was in.
    #[must_use]
    pub fn example(&self, habit: Habit) -> Option<(&'r Done, &'r Mark)> {
        let marks = self.done.iter().flat_map(|done| done.marks.iter().map(move |mark| (done, mark)));
        let slips = marks.filter(|(_, mark)| mark.slip() == Some(habit));
        // The first of those that cost as much.
        slips.rev().max_by(|a, b| a.1.more_minutes().total_cmp(&b.1.more_minutes()))
    }
}

/// That somebody has it in hand is said once weakness is as improbable as it must be probable to be said, and what was seen
/// counts for no less than what was known beforehand.
fn is_in_hand(standing: &Standing, rules: &PracticeRules) -> bool {
    #[expect(clippy::cast_precision_loss, reason = "a count of answers")]
    let choices = standing.choices as f64;
    standing.probability <= 1.0 - rules.sure_from && choices >= rules.usual_weight
}
