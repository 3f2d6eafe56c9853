//! What a trainee says, in few keystrokes.

use crate::cli::resolve::Resolver;
use crate::diag::{Diagnostic, Said, Sources};
use crate::drill::{Answer, Exercise};
use crate::profile::{Model, ShapeWords};
use itertools::Itertools;

/// What is wanted.
#[derive(Debug, PartialEq)]
pub(super) enum Wanted {
    /// To answer.
    Answer(Answer),
    /// What can be answered, and what hangs on the wall.
    Help,
    /// To end the run here.
    Leave,
}

/// What was said, or what is wrong with it. Words that answer another question are understood, so that somebody is told
/// that they do.
pub(super) fn wanted(
    said: &Said,
    exercise: Exercise,
    models: &[&Model],
    sources: &Sources,
) -> Result<Wanted, Vec<Diagnostic>> {
    let mut resolver = Resolver::default();
    let wanted = match plain(&said.text, exercise) {
        Some(wanted) => Some(wanted),
        None => longer(said, exercise, models, sources, &mut resolver),
    };
    resolver.finish(wanted)
}

/// An answer of one word.
fn plain(text: &str, exercise: Exercise) -> Option<Wanted> {
    let answer = match text {
        "?" | "help" => return Some(Wanted::Help),
        "q" | "quit" => return Some(Wanted::Leave),
        "e" | "leave" => Answer::Leave,
        "none" => Answer::NoPads,
        "stop" => Answer::Stop,
        "no" => Answer::NoStop,
        word => Answer::Shape(shape(word, exercise)?),
    };
    Some(Wanted::Answer(answer))
}

/// A shape by its name, or where it is asked for by the beginning of it.
fn shape(word: &str, exercise: Exercise) -> Option<usize> {
    let is_meant = |name: &&str| match exercise {
        Exercise::Shape => !word.is_empty() && name.starts_with(word),
        _ => *name == word,
    };
    ShapeWords::NAMES.iter().positions(is_meant).exactly_one().ok()
}

/// A helmet, or pads.
fn longer(
    said: &Said,
    exercise: Exercise,
    models: &[&Model],
    sources: &Sources,
    resolver: &mut Resolver,
) -> Option<Wanted> {
    let word = said.text.split_whitespace().next().unwrap_or_default();
    let at = said.text.len() - said.text[word.len()..].trim_start().len();
    let rest = Said { text: said.text[at..].to_owned(), span: sources.part(said, at..said.text.len()) };
    let is_helmet = matches!(exercise, Exercise::Session | Exercise::Next);
    let answer = match word {
        "t" | "try" => resolver.fetched(&rest, models, sources),
        "p" | "pads" => resolver.pads_of_any_shell(&rest, sources).map(Answer::Pads),
        _ if word.contains('=') => resolver.pads_of_any_shell(said, sources).map(Answer::Pads),
        "" => {
            resolver.no_answer_to(exercise, said);
            None
        }
        _ if is_helmet => resolver.fetched(said, models, sources),
        _ => {
            resolver.no_answer_to(exercise, said);
            None
        }
    };
    answer.map(Wanted::Answer)
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case("l", Exercise::Shape, Some(Answer::Shape(0)))]
    #[case("inter", Exercise::Shape, Some(Answer::Shape(1)))]
    #[case("round", Exercise::Shape, Some(Answer::Shape(2)))]
    #[case("rounder", Exercise::Shape, None)]
    #[case("", Exercise::Shape, None)]
    #[case("l", Exercise::Session, None)]
    #[case("long", Exercise::Session, Some(Answer::Shape(0)))]
    #[case("e", Exercise::Next, Some(Answer::Leave))]
    #[case("none", Exercise::Pads, Some(Answer::NoPads))]
    #[case("no", Exercise::Stop, Some(Answer::NoStop))]
    #[case("stop it", Exercise::Stop, None)]
    fn one_word_is_enough(#[case] text: &str, #[case] exercise: Exercise, #[case] meant: Option<Answer>) {
        assert_eq!(plain(text, exercise), meant.map(Wanted::Answer));
    }
}
