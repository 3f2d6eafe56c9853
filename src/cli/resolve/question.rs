//! What an audit is asked, from what was typed.

use super::Resolver;
use crate::audit::{Question, Targets};
use crate::catalogue::Catalogue;
use crate::cli::args::TypedQuestion;
use crate::diag::{Diagnostic, Said, Sources};
use crate::head::Measure;
use crate::profile::{Measurer, Tool};
use itertools::Itertools;

pub(super) const MEASURES: &[(&str, Measure)] = &[
    ("circumference", Measure::Circumference),
    ("length", Measure::Length),
    ("breadth", Measure::Breadth),
    ("face-width", Measure::FaceWidth),
];

/// The question, or everything that is unknown in it.
pub(in crate::cli) fn question<'a>(
    typed: &TypedQuestion,
    catalogue: &'a Catalogue,
    sources: &mut Sources,
) -> Result<Question<'a>, Vec<Diagnostic>> {
    let mut resolver = Resolver::default();
    let question = resolver.question(typed, catalogue, sources);
    resolver.finish(question)
}

impl Resolver {
    /// `None` where something is unknown.
    fn question<'a>(
        &mut self,
        typed: &TypedQuestion,
        catalogue: &'a Catalogue,
        sources: &mut Sources,
    ) -> Option<Question<'a>> {
        let population = typed.population.as_ref().map(|text| sources.say("--population", text.clone()));
        let population = self.population(population.as_ref(), catalogue);
        let said = typed.measured.iter().map(|text| sources.say("--measured", text.clone())).collect_vec();
        let measured = said.iter().filter_map(|said| self.measured(said, catalogue)).collect_vec();
        Some(Question {
            population: population?,
            measured: measured
                .into_iter()
                .unique_by(|(measure, _)| *measure)
                .sorted_by_key(|(measure, _)| *measure)
                .collect(),
            reading_step: catalogue.shop.auditing.reading_step,
            heads: usize::try_from(typed.customers).unwrap_or(usize::MAX),
            tries: typed.steps.map_or(catalogue.shop.session.tries, usize::from),
            targets: if typed.keep_type { Targets::SameType } else { Targets::AnyType },
            seed: typed.common.seed,
        })
    }

    /// A measure that staff take, and how exact they are.
    fn measured(&mut self, said: &Said, catalogue: &Catalogue) -> Option<(Measure, f64)> {
        let measure = self.word(Some(said), "measure", MEASURES)?;
        let tool = if measure == Measure::Circumference { Tool::Tape } else { Tool::Caliper };
        let sd = catalogue.shop.reading_sd(Measurer::Staff, tool);
        if sd.is_none() {
            let help = "add a line for staff with a tape or caliper under `measuring` in shop.yaml";
            let message = "the shop's file doesn't say how exact such a reading is";
            self.error("measure-error", said, message, "how exact?", help);
        }
        Some((measure, sd?))
    }
}
