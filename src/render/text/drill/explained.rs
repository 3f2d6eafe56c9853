//! Two lines about a task that is over: what it cost, and why.

use super::super::page::{Page, mm};
use super::words::{answered, best, capital, helmet, is_prevented, tenths};
use crate::catalogue::Catalogue;
use crate::drill::{Best, Done, Exercise, Lesson, Mark};
use crate::plan::Weighed;

/// What the answer that cost most cost, against what, and why.
#[must_use]
pub fn drill_explained(catalogue: &Catalogue, done: &Done, lesson: &Lesson<'_>) -> String {
    let mut page = Page::default();
    page.wrapped("  result    ", &result(catalogue, done, lesson));
    page.wrapped("  why       ", &why(catalogue, done, lesson));
    page.finish()
}

fn result(catalogue: &Catalogue, done: &Done, lesson: &Lesson<'_>) -> String {
    let Some(worst) = lesson.worst else { return good(catalogue, done) };
    let best = best(catalogue, &worst.best);
    let own = capital(&answered(catalogue, &worst.answer));
    match worst.weighed {
        _ if is_prevented(worst) => format!("{own}: that can hurt somebody, so it ends here. Best: {best}."),
        Some(weighed) if weighed.more_minutes.value <= weighed.more_minutes.error => {
            format!("As good as the plan, as far as it can be told: {} minutes more.", tenths(weighed.more_minutes))
        }
        Some(weighed) => format!("{own} cost {} than the best: {best}.", cost(&weighed)),
        None if matches!(worst.best, Best::Shape(..)) => format!("{own} is wrong: by what is known it is {best}."),
        None => format!("{own} is wrong: it is {best}."),
    }
}

fn good(catalogue: &Catalogue, done: &Done) -> String {
    match done.marks.last() {
        Some(Mark { best: own @ Best::Shape(..), .. }) => format!("Right by what is known: {}.", best(catalogue, own)),
        Some(Mark { best: own @ Best::Stop(_), .. }) => format!("Right: {}.", best(catalogue, own)),
        Some(mark) if done.exercise.is_single() => format!("As good as the plan: {}.", best(catalogue, &mark.best)),
        _ => "As good as the plan.".to_owned(),
    }
}

/// Minutes more, and rounds if there are more of them.
fn cost(weighed: &Weighed) -> String {
    let minutes = tenths(weighed.more_minutes);
    match weighed.more_tries.value {
        tries if tries >= 0.05 => format!("{minutes} minutes and {tries:.1} rounds more"),
        _ => format!("{minutes} minutes more"),
    }
}

fn why(catalogue: &Catalogue, done: &Done, lesson: &Lesson<'_>) -> String {
    if let Some(habit) = lesson.habit.filter(|_| done.exercise != Exercise::Stop) {
        return format!("{}: {}.", capital(habit.words()), habit.instead());
    }
    match lesson.situation {
        Some(situation) => format!("{}.", capital(situation.why)),
        None => truth(catalogue, lesson),
    }
}

/// What the head truly is, and what truly fits it.
fn truth(catalogue: &Catalogue, lesson: &Lesson<'_>) -> String {
    let head = lesson.head;
    let measures = [head.circumference, head.length, head.breadth].map(|value| mm(value.round()));
    let word = catalogue.shop.words.word(lesson.shape_index);
    let [circumference, length, breadth] = measures;
    let fitting = match lesson.fitting.as_slice() {
        [] => "nothing here fits it".to_owned(),
        [(model, size)] => format!("{} fits it, and nothing else", helmet(catalogue, (model, size))),
        [(model, size), others @ ..] => {
            format!("{} fits it, and {} more", helmet(catalogue, (model, size)), others.len())
        }
    };
    let index = lesson.shape_index;
    format!("In truth {circumference} mm around, {length} long, {breadth} broad, index {index:.1}: {word}; {fitting}.")
}
