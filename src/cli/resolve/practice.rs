//! What somebody wants to practise, from what was typed.

use super::Resolver;
use crate::catalogue::Catalogue;
use crate::cli::args::{TypedDrill, TypedExercise, TypedHead};
use crate::cli::journal::day as day_of;
use crate::diag::{Code, Diagnostic, Sources, note};
use crate::drill::{Again, Exercise, Level, Spread, Wanted};
use crate::journal::Day;
use itertools::Itertools;

/// What is wanted, or everything that is unknown in it. `today` is the day where none was typed.
pub(in crate::cli) fn practice<'a>(
    typed: &TypedDrill,
    today: Day,
    catalogue: &'a Catalogue,
    sources: &mut Sources,
) -> Result<Wanted<'a>, Vec<Diagnostic>> {
    let mut resolver = Resolver::default();
    let notes = resolver.notes(&TypedHead::default(), &typed.filter, sources)?;
    let range = resolver.range(&notes, catalogue);
    let population = typed.population.as_ref().map(|text| sources.say("--population", text.clone()));
    let population = resolver.population(population.as_ref(), catalogue);
    let day = typed.day.as_ref().map(|text| sources.say("--day", text.clone()));
    let day = match day {
        None => Some(today),
        Some(said) => day_of(&said, &mut resolver.problems),
    };
    let exercises = resolver.exercises(typed);
    let wanted = range.zip(population).zip(day).map(|((range, population), day)| Wanted {
        population,
        models: range.models,
        absent: range.absent,
        exercises,
        level: Level::of_number(typed.level).unwrap_or(Level::First),
        spread: if typed.as_they_come { Spread::AsTheyCome } else { Spread::Even },
        again: if typed.same_for_all || typed.paper { Again::Never } else { Again::Due },
        day,
        seed: typed.seed,
    });
    resolver.finish(wanted)
}

impl Resolver {
    /// Each once, in the order in which they were named; without any all of them, as far as they can stand on paper.
    fn exercises(&mut self, typed: &TypedDrill) -> Vec<Exercise> {
        let named = typed.exercises.iter().map(|exercise| exercise.meaning()).unique().collect_vec();
        if typed.paper && named.iter().any(|exercise| !exercise.is_single()) {
            note(&mut self.problems, || {
                Diagnostic::error(
                    Code("session-on-paper"),
                    "a whole session can't stand on paper: each answer leads on",
                )
                .help("leave `session` out, or leave out --exercise for all that can")
            });
        }
        if !named.is_empty() {
            return named;
        }
        Exercise::ALL.into_iter().filter(|exercise| exercise.is_single() || !typed.paper).collect()
    }
}

impl TypedExercise {
    fn meaning(self) -> Exercise {
        match self {
            Self::Session => Exercise::Session,
            Self::Next => Exercise::Next,
            Self::Shape => Exercise::Shape,
            Self::Pads => Exercise::Pads,
            Self::Stop => Exercise::Stop,
        }
    }
}
