//! What is known when a session begins, from what was typed.

use super::question::MEASURES;
use super::wish::Helmet;
use super::{Habit, Resolver, shown};
use crate::catalogue::Catalogue;
use crate::cli::args::TypedCounter;
use crate::cli::journal::day as day_of;
use crate::counter::{OnHead, Opening, Session};
use crate::diag::{Diagnostic, Said, Sources};
use crate::fit::with_pads;
use crate::journal::{Day, Head, Read, Wears};
use crate::profile::{Measurer, Tool};
use crate::supply::Kind;
use itertools::Itertools;

/// The opening of a session, or everything that is unknown in it. `today` is the day where none was typed.
pub(in crate::cli) fn opening(
    typed: &TypedCounter,
    today: Day,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Opening, Vec<Diagnostic>> {
    let mut resolver = Resolver::default();
    let notes = resolver.notes(&typed.head, &typed.filter, sources)?;
    let head = resolver.known_head(&notes, catalogue, sources);
    let range = resolver.range(&notes, catalogue);
    let minutes = typed.minutes.as_ref().map(|text| sources.say("--minutes", text.clone()));
    let minutes = minutes.and_then(|said| resolver.number(&said, "a number of minutes, such as 30"));
    let day = typed.day.as_ref().map(|text| sources.say("--day", text.clone()));
    let day = match day {
        None => Some(today),
        Some(said) => day_of(&said, &mut resolver.problems),
    };
    let opening = head.zip(range).zip(day).map(|((head, range), day)| Opening {
        day,
        seed: typed.seed,
        head,
        models: range.models.iter().map(|model| model.id.clone()).collect(),
        absent: range.absent,
        tries: typed.steps.map_or(catalogue.shop.session.tries, usize::from),
        minutes,
        lead: typed.lead.meaning(),
    });
    resolver.finish(opening)
}

impl Resolver {
    /// What is known of the head, in words that a record can hold.
    fn known_head(&mut self, notes: &super::Notes, catalogue: &Catalogue, sources: &Sources) -> Option<Head> {
        let population = self.population(notes.population.as_ref(), catalogue).map(|population| population.id.clone());
        let readings = self.reads(notes, catalogue, sources);
        let shape = self.shape_word(notes.shape.as_ref());
        let worn = notes.wears.iter().filter_map(|said| self.worn(said, catalogue)).collect_vec();
        let wears =
            worn.into_iter().map(|worn| Wears { model: worn.model.id.clone(), size: worn.size, reason: worn.reason });
        Some(Head { population: population?, readings, shape, wears: wears.collect() })
    }

    /// A helmet to go on with, as `MODEL SIZE`, and behind it pads other than the standard ones.
    pub(in crate::cli) fn helmet(&mut self, said: &Said, session: &Session<'_>, sources: &Sources) -> Option<OnHead> {
        let mut words = said.text.splitn(3, char::is_whitespace);
        let (Some(model), Some(size)) = (words.next(), words.next()) else {
            let help = "write for example: t wexmarsh-one L, or: t wexmarsh-one L sides=10";
            self.error("answer-form", said, "a helmet is a model and a size", "not of this form", help);
            return None;
        };
        let rest = words.next().unwrap_or_default();
        let part = |text: &str| Said { text: text.to_owned(), span: said.span };
        let model = self.model(&part(model), session.catalogue())?;
        let (shell, size) = self.shell_and_size(&part(size), model)?;
        let changes = if rest.is_empty() {
            Vec::new()
        } else {
            let place = sources.part(said, said.text.len() - rest.len()..said.text.len());
            self.pads_on_offer(&Said { text: rest.to_owned(), span: place }, Helmet { model, shell, size }, sources)?
        };
        let pads = with_pads(size.standard, &changes);
        Some(OnHead { model: model.id.clone(), size: size.label.clone(), pads, is_swap: false })
    }

    /// Other pads for the helmet on the head.
    pub(in crate::cli) fn other_pads(
        &mut self,
        said: &Said,
        session: &Session<'_>,
        sources: &Sources,
    ) -> Option<OnHead> {
        let standing = session.standing();
        let Some((on, _)) = standing.failed() else {
            let help =
                "pads are swapped in a helmet that was tried and failed; t MODEL SIZE sides=10 begins with other pads";
            self.error("answer-refused", said, "no helmet is on the head", "into which helmet?", help);
            return None;
        };
        let model = session.catalogue().model(on.model.as_str())?;
        let (shell, size) = model.size(&on.size)?;
        let changes = self.pads_on_offer(said, Helmet { model, shell, size }, sources)?;
        let pads = with_pads(on.pads, &changes);
        Some(OnHead { pads, is_swap: true, ..on.clone() })
    }

    /// Pads that the shell has for the size, the standard ones included: others fit no other shell and are never mixed.
    fn pads_on_offer(&mut self, said: &Said, helmet: Helmet<'_>, sources: &Sources) -> Option<Vec<Kind>> {
        let before = self.problems.len();
        let named = self.pads_written(said, sources);
        self.not_on_offer(helmet, named.iter().filter(|(kind, _)| !helmet.has(*kind)));
        (self.problems.len() == before).then(|| named.into_iter().map(|(kind, _)| kind).collect())
    }

    /// A reading taken by staff during a session, as `breadth=152`.
    pub(in crate::cli) fn measured_now(
        &mut self,
        said: &Said,
        session: &Session<'_>,
        sources: &Sources,
    ) -> Option<Read> {
        let Some((name, _)) = said.text.split_once('=') else {
            let help = "write for example: m breadth=152; measures are circumference, length, breadth, face-width";
            self.error("answer-form", said, "a reading is a measure with a value", "not of this form", help);
            return None;
        };
        let value = sources.part(said, name.len() + 1..said.text.len());
        let value = Said { text: said.text[name.len() + 1..].to_owned(), span: value };
        let name = Said { text: name.trim().to_owned(), span: said.span };
        let measure = self.word(Some(&name), "measure", MEASURES)?;
        let habit = Habit::of(measure, Measurer::Staff, Tool::Caliper, session.catalogue());
        self.read(measure, &value, habit, sources)
    }

    /// An answer that means nothing.
    pub(in crate::cli) fn no_answer(&mut self, said: &Said) {
        let message = format!("`{}` is no answer", shown(&said.text));
        let help = "f for a good fit, a number or the beginning of a reason, s1 to s4 for a stop; ? shows everything";
        self.error("answer-unknown", said, message, "not understood", help);
    }
}
