//! A customer who measured at home, from what was typed: several readings of one measure, by the customer.

use super::Resolver;
use crate::away::Ask;
use crate::catalogue::Catalogue;
use crate::cli::args::TypedOrder;
use crate::diag::{Diagnostic, Said, Sources};
use crate::head::{Measure, Reading};
use crate::render::json::Warning;
use crate::unit::plain;
use itertools::Itertools;

/// More readings of one measure are none that somebody took.
const MOST_READINGS: usize = 20;

/// What is asked, and readings that are too far apart; or everything that is wrong with it.
pub(in crate::cli) fn asked_from_home<'a>(
    typed: &TypedOrder,
    catalogue: &'a Catalogue,
    sources: &mut Sources,
) -> Result<(Ask<'a>, Vec<Warning>), Vec<Diagnostic>> {
    let mut resolver = Resolver::default();
    let mut notes = resolver.notes(&typed.head, &typed.filter, sources)?;
    notes.measured_by.get_or_insert_with(|| sources.say("--measured-by", "customer"));
    notes.measured_with.get_or_insert_with(|| sources.say("--measured-with", "ruler"));
    let mut warnings = Vec::new();
    let readings = resolver.said_readings(&notes, catalogue, |resolver, measure, said, habit| {
        let (reading, warning) = resolver.repeated(measure, said, habit.sd, (catalogue, sources))?;
        warnings.extend(warning);
        Some(reading)
    });
    let customer = resolver.measured_customer(&notes, readings, &typed.common, catalogue);
    let range = resolver.range(&notes, catalogue);
    let ask = customer.zip(range).map(|(customer, range)| Ask { customer, models: range.models, absent: range.absent });
    resolver.finish(ask.map(|ask| (ask, warnings)))
}

impl Resolver {
    /// The mean of several readings by one person, whose common error doesn't average out.
    fn repeated(
        &mut self,
        measure: Measure,
        said: &Said,
        usual: Option<f64>,
        (catalogue, sources): (&Catalogue, &Sources),
    ) -> Option<(Reading, Option<Warning>)> {
        let pieces = pieces(said, sources);
        // 57,5 is a decimal comma and no two readings.
        let is_decimal = |piece: &Said| piece.text.chars().take_while(char::is_ascii_digit).count() < 3;
        if pieces.len() == 1 || pieces.len() == 2 && is_decimal(&pieces[1]) {
            return self.reading(measure, said, usual, sources).map(|reading| (reading, None));
        }
        if pieces.len() > MOST_READINGS {
            let message = format!("{} readings of one measure", pieces.len());
            self.error("measure-number", said, message, "too many", "three are enough, twenty are read");
            return None;
        }
        let readings = pieces.iter().map(|piece| self.reading(measure, piece, usual, sources)).collect_vec();
        let readings: Vec<Reading> = readings.into_iter().collect::<Option<_>>()?;
        #[expect(clippy::cast_precision_loss, reason = "at most twenty")]
        let mean = |value: fn(&Reading) -> f64| readings.iter().map(value).sum::<f64>() / readings.len() as f64;
        let sd = mean(|reading| reading.sd * reading.sd).sqrt();
        let rules = &catalogue.shop.away;
        let values = readings.iter().map(|reading| reading.value);
        let apart = values.minmax().into_option().map_or(0.0, |(least, most)| most - least);
        let is_far = apart > rules.far_apart(sd) + 1e-9;
        let warning = is_far.then(|| Warning {
            code: "readings-apart".to_owned(),
            message: format!(
                "The readings of the {} are {} mm apart: measure again. The figures below take their mean as it is.",
                measure.name(),
                plain((apart * 10.0).round() / 10.0)
            ),
        });
        let value = mean(|reading| reading.value);
        Some((Reading { measure, value, sd: rules.mean_sd(sd, readings.len()) }, warning))
    }
}

/// What stands between commas, each piece with its place.
fn pieces(said: &Said, sources: &Sources) -> Vec<Said> {
    let mut at = 0;
    let mut pieces = Vec::new();
    for part in said.text.split(',') {
        let start = at + part.len() - part.trim_start().len();
        let text = part.trim();
        pieces.push(Said { text: text.to_owned(), span: sources.part(said, start..start + text.len()) });
        at += part.len() + 1;
    }
    pieces
}
