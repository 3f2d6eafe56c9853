//! What a fitter answers, in few keystrokes.

use crate::cli::resolve::Resolver;
use crate::counter::{OnHead, Session};
use crate::diag::{Diagnostic, Said, Sources};
use crate::journal::Read;
use crate::profile::{Nature, Reason};
use itertools::Itertools;

/// What is wanted.
pub(super) enum Wanted {
    /// What was heard of the helmet; `None` for a good fit.
    Heard(Option<Reason>),
    /// A helmet, or other pads, of the fitter's own choice.
    Chose(OnHead),
    /// The customer doesn't want to put it on.
    Declined,
    /// Something was measured.
    Measured(Read),
    /// The last thing taken back.
    TakeBack,
    /// The session ends.
    End,
    /// Everything that can be answered.
    Help,
    /// The session stays open.
    Leave,
}

/// What an answer means, or what is wrong with it.
pub(super) fn wanted(said: &Said, session: &Session<'_>, sources: &Sources) -> Result<Wanted, Vec<Diagnostic>> {
    let mut resolver = Resolver::default();
    let wanted = meaning(said, session, sources, &mut resolver);
    resolver.finish(wanted)
}

fn meaning(said: &Said, session: &Session<'_>, sources: &Sources, resolver: &mut Resolver) -> Option<Wanted> {
    let word = said.text.split_whitespace().next().unwrap_or_default();
    let at = said.text.len() - said.text[word.len()..].trim_start().len();
    let rest = Said { text: said.text[at..].to_owned(), span: sources.part(said, at..said.text.len()) };
    let alone = |wanted| if rest.text.is_empty() { Some(wanted) } else { None };
    let known = match word {
        "" if session.standing().fits() => alone(Wanted::End),
        "f" | "fits" => alone(Wanted::Heard(None)),
        "n" | "no" => alone(Wanted::Declined),
        "b" | "back" => alone(Wanted::TakeBack),
        "e" | "end" => alone(Wanted::End),
        "q" | "leave" => alone(Wanted::Leave),
        "?" | "help" => alone(Wanted::Help),
        "t" | "try" => return resolver.helmet(&rest, session, sources).map(Wanted::Chose),
        "p" | "pads" => return resolver.other_pads(&rest, session, sources).map(Wanted::Chose),
        "m" | "measure" => return resolver.measured_now(&rest, session, sources).map(Wanted::Measured),
        _ => reason(word).and_then(|reason| alone(Wanted::Heard(Some(reason)))),
    };
    if known.is_none() {
        resolver.no_answer(said);
    }
    known
}

/// A reason by its number, its id, or the beginning of its id where no other begins so.
fn reason(word: &str) -> Option<Reason> {
    let number = |digits: &str| {
        let is_plain = !digits.is_empty() && digits.bytes().all(|b| b.is_ascii_digit());
        digits.parse::<usize>().ok().filter(|_| is_plain)?.checked_sub(1)
    };
    let (stops, others): (Vec<_>, Vec<_>) = Reason::ALL.into_iter().partition(|reason| reason.nature() == Nature::Stop);
    if let Some(at) = word.strip_prefix('s').and_then(number) {
        return stops.get(at).copied();
    }
    if let Some(at) = number(word) {
        return others.get(at).copied();
    }
    let begun = |reason: &Reason| word.len() >= 3 && reason.id().starts_with(word);
    Reason::from_id(word).or_else(|| Reason::ALL.into_iter().filter(begun).exactly_one().ok())
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case("6", Some(Reason::TemplesPress))]
    #[case("21", Some(Reason::DislikesIt))]
    #[case("s1", Some(Reason::RollsOffForward))]
    #[case("s4", Some(Reason::StrapCannotHold))]
    #[case("temples-press", Some(Reason::TemplesPress))]
    #[case("tem", Some(Reason::TemplesPress))]
    #[case("cheeks", None)]
    #[case("cheeks-l", Some(Reason::CheeksLoose))]
    #[case("0", None)]
    #[case("22", None)]
    #[case("+6", None)]
    #[case("s5", None)]
    #[case("t", None)]
    fn a_reason_is_a_number_or_the_beginning_of_its_name(#[case] word: &str, #[case] meant: Option<Reason>) {
        assert_eq!(reason(word), meant);
    }
}
