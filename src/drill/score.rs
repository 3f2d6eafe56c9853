//! How good somebody was, by exercise and in all.

use super::{Done, Exercise};
use crate::fit::Quote;
use itertools::Itertools;

/// How good somebody was in one exercise.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scored {
    /// Which.
    pub exercise: Exercise,
    /// Tasks of it that were finished.
    pub tasks: usize,
    /// From 0 to 1. Where minutes hang on it, the minutes that the best plan costs as a share of those that the answers
    /// cost, over all tasks together; otherwise the mean of what each answer was worth. A task in which somebody could have
    /// been hurt adds its minutes and wins none.
    pub score: f64,
    /// Minutes that the answers cost more than the best ones, as expected when they were given, over all tasks. The error is
    /// the sum of theirs: they share heads.
    pub more_minutes: Quote,
    /// Rounds on the head that they cost more, in the same way.
    pub more_tries: Quote,
}

/// How good somebody was.
#[derive(Debug, Clone, PartialEq)]
pub struct Scores {
    /// By exercise, in the order of [`Exercise::ALL`]: those of which a task was finished.
    pub exercises: Vec<Scored>,
    /// The mean over all tasks of the score of their exercise; `None` where no task was finished.
    pub in_all: Option<f64>,
}

/// How good somebody was in these tasks.
#[must_use]
pub fn scores(done: &[Done]) -> Scores {
    let exercises = Exercise::ALL.into_iter().filter_map(|exercise| scored(exercise, done)).collect_vec();
    let tasks: f64 = exercises.iter().map(|scored| count(scored.tasks)).sum();
    let sum: f64 = exercises.iter().map(|scored| count(scored.tasks) * scored.score).sum();
    Scores { in_all: (tasks > 0.0).then(|| sum / tasks), exercises }
}

fn scored(exercise: Exercise, done: &[Done]) -> Option<Scored> {
    let own = done.iter().filter(|done| done.exercise == exercise && !done.marks.is_empty()).collect_vec();
    if own.is_empty() {
        return None;
    }
    let planned: f64 = own.iter().map(|done| done.plan_minutes).sum();
    let won: f64 = own.iter().map(|done| done.plan_minutes * worth(done)).sum();
    let more_minutes = sum(&own, Done::more_minutes, |weighed| weighed.more_minutes);
    let score = if planned > 0.0 {
        won / (planned + more_minutes.value)
    } else {
        own.iter().map(|done| worth(done)).sum::<f64>() / count(own.len())
    };
    let more_tries = sum(&own, Done::more_tries, |weighed| weighed.more_tries);
    Some(Scored { exercise, tasks: own.len(), score, more_minutes, more_tries })
}

fn worth(done: &Done) -> f64 {
    done.marks.iter().map(|mark| mark.worth).fold(1.0, f64::min)
}

fn sum(own: &[&Done], value: impl Fn(&Done) -> f64, figure: impl Fn(crate::plan::Weighed) -> Quote) -> Quote {
    let marks = own.iter().flat_map(|done| &done.marks);
    let errors = marks.filter(|mark| mark.more_minutes() > 0.0).filter_map(|mark| mark.weighed);
    Quote { value: own.iter().map(|done| value(done)).sum(), error: errors.map(|weighed| figure(weighed).error).sum() }
}

#[expect(clippy::cast_precision_loss, reason = "a count of tasks")]
fn count(tasks: usize) -> f64 {
    tasks as f64
}

#[cfg(test)]
mod tests {
    use super::super::{Answer, Best, Level, Mark};
    use super::*;
    use crate::plan::Weighed;

    fn mark(more: f64, worth: f64) -> Mark {
        let quote = |value| Quote { value, error: 0.25 };
        let weighed = Weighed {
            fit: quote(0.5),
            more_minutes: quote(more),
            more_tries: quote(more / 10.0),
            more_without: quote(0.0),
        };
        Mark {
            answer: Answer::Leave,
            best: Best::Leave,
            helmet: None,
            heard: None,
            weighed: Some(weighed),
            worth,
            signs: Vec::new(),
        }
    }

    fn done(exercise: Exercise, plan_minutes: f64, marks: Vec<Mark>) -> Done {
        Done { number: 1, exercise, level: Level::First, aim: None, marks, plan_minutes, took: None }
    }

    fn near(a: f64, b: f64) -> bool {
        (a - b).abs() < 1e-12
    }

    #[test]
    fn minutes_are_pooled_before_they_are_divided() {
        let tasks = [
            done(Exercise::Session, 15.0, vec![mark(5.0, 1.0), mark(-3.0, 1.0)]),
            done(Exercise::Session, 10.0, vec![mark(0.0, 1.0)]),
        ];
        let scores = scores(&tasks);
        let [session] = scores.exercises[..] else { panic!("one exercise") };
        assert!(near(session.score, 25.0 / 30.0) && scores.in_all.is_some_and(|all| near(all, 25.0 / 30.0)));
        assert!(near(session.more_minutes.value, 5.0) && near(session.more_tries.value, 0.5), "{session:?}");
        assert!(near(session.more_minutes.error, 0.25), "only what costs has an error: {session:?}");
    }

    #[test]
    fn what_can_hurt_somebody_wins_nothing_and_adds_its_minutes() {
        let tasks = [done(Exercise::Pads, 6.0, vec![mark(0.0, 0.0)]), done(Exercise::Pads, 12.0, vec![mark(2.0, 1.0)])];
        assert!(near(scores(&tasks).exercises[0].score, 12.0 / 20.0));
    }

    #[test]
    fn all_is_the_mean_over_tasks() {
        let tasks = [
            done(Exercise::Stop, 0.0, vec![mark(0.0, 1.0)]),
            done(Exercise::Shape, 0.0, vec![mark(0.0, 0.5)]),
            done(Exercise::Stop, 0.0, vec![mark(0.0, 0.0)]),
            done(Exercise::Session, 10.0, Vec::new()),
        ];
        let scores = scores(&tasks);
        let own = scores.exercises.iter().map(|scored| (scored.exercise, scored.tasks, scored.score)).collect_vec();
        assert_eq!(own, [(Exercise::Shape, 1, 0.5), (Exercise::Stop, 2, 0.5)], "unanswered tasks are none");
        assert_eq!(scores.in_all, Some(0.5));
    }

    #[test]
    fn nothing_done_is_no_score() {
        assert_eq!(scores(&[]), Scores { exercises: Vec::new(), in_all: None });
    }
}
