//! What a trainee answers: helmets by the beginning of their name, pads of whichever shell.

use super::{Resolver, shown};
use crate::diag::{Said, Sources};
use crate::drill::{Answer, Exercise};
use crate::profile::{Model, Zone};
use itertools::Itertools;

/// The fewest letters of a model's id that stand for it.
const FEWEST_LETTERS: usize = 3;

impl Resolver {
    /// A helmet, as `MODEL SIZE`, and behind it pads other than the standard ones.
    pub(in crate::cli) fn fetched(&mut self, said: &Said, models: &[&Model], sources: &Sources) -> Option<Answer> {
        let (name, rest) = first_word(said, sources);
        let model = self.begun(&name, models)?;
        let (label, rest) = first_word(&rest, sources);
        if label.text.is_empty() {
            let help = format!(
                "write the size behind it: {} {}",
                model.id,
                model.sizes().next().map_or("M", |(_, size)| size.label.as_str())
            );
            self.error("answer-form", said, "a helmet is a model and a size", "in which size?", &help);
            return None;
        }
        let size = self.size(&label, model)?;
        let pads = if rest.text.is_empty() { Vec::new() } else { self.pads_of_any_shell(&rest, sources)? };
        Some(Answer::Helmet { model: model.id.clone(), size, pads })
    }

    /// Pads, each zone once. Whether the shell takes them is the trainee's own matter.
    pub(in crate::cli) fn pads_of_any_shell(&mut self, said: &Said, sources: &Sources) -> Option<Vec<(Zone, f64)>> {
        let before = self.problems.len();
        let named = self.pads_written(said, sources);
        (self.problems.len() == before).then(|| named.into_iter().map(|(pad, _)| pad).collect())
    }

    /// Something that answers no question of this kind.
    pub(in crate::cli) fn no_answer_to(&mut self, exercise: Exercise, said: &Said) {
        let message = format!("`{}` is no answer", shown(&said.text));
        self.error("answer-unknown", said, message, "not understood", answers_to(exercise));
    }

    /// A model by its id, or by the beginnings of some of its parts if no other has the same: `wex-o` or `one` for
    /// `wexmarsh-one`.
    fn begun<'a>(&mut self, said: &Said, models: &[&'a Model]) -> Option<&'a Model> {
        let typed = said.text.to_lowercase();
        if let Some(model) = models.iter().find(|model| model.id.as_str() == typed) {
            return Some(model);
        }
        let is_begun = |model: &&&Model| typed.len() >= FEWEST_LETTERS && begins(model.id.as_str(), &typed);
        let begun = models.iter().filter(is_begun).collect_vec();
        match begun.as_slice() {
            [model] => Some(model),
            [] => {
                let known = models.iter().map(|model| model.id.as_str()).collect_vec();
                self.unknown("unknown-model", said, "model", &known);
                None
            }
            several => {
                let message = format!("more than one model begins like `{}`", shown(&said.text));
                let help = format!("write more of it: {}", several.iter().map(|model| model.id.as_str()).join(", "));
                self.error("model-unclear", said, message, "which one?", &help);
                None
            }
        }
    }
}

/// Whether each part of a name begins like that of the typed one; parts before and behind may be missing.
fn begins(name: &str, typed: &str) -> bool {
    let parts = name.split('-').collect_vec();
    (0..parts.len()).any(|first| {
        let mut rest = parts[first..].iter();
        typed.split('-').all(|typed| rest.next().is_some_and(|part| part.starts_with(typed)))
    })
}

/// What can be answered.
pub(in crate::cli) fn answers_to(exercise: Exercise) -> &'static str {
    match exercise {
        Exercise::Session | Exercise::Next => {
            "MODEL SIZE fetches a helmet, p sides=10 swaps pads in the one on the head, e lets the customer go"
        }
        Exercise::Pads => "sides=10 cheeks=28 for pads, or none: no pads help, another helmet",
        Exercise::Shape => "long, intermediate or round",
        Exercise::Stop => "stop, or no",
    }
}

/// The first word and what stands behind it, each with its place.
fn first_word(said: &Said, sources: &Sources) -> (Said, Said) {
    let end = said.text.find(char::is_whitespace).unwrap_or(said.text.len());
    let behind = said.text.len() - said.text[end..].trim_start().len();
    let part =
        |from: usize, to: usize| Said { text: said.text[from..to].to_owned(), span: sources.part(said, from..to) };
    (part(0, end), part(behind, said.text.len()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case("wex-o", true)]
    #[case("wexmarsh-one", true)]
    #[case("wexm", true)]
    #[case("wex-one-x", false)]
    #[case("one", true)]
    #[case("ne", false)]
    #[case("exmarsh", false)]
    #[case("wex-t", false)]
    fn a_name_is_known_by_the_beginnings_of_its_parts(#[case] typed: &str, #[case] is_meant: bool) {
        assert_eq!(begins("wexmarsh-one", typed), is_meant);
    }
}
