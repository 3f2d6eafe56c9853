//! `learn`: from journals to changes of the profiles, which a person takes over or doesn't.

use super::args::{TypedJournals, TypedKept, TypedLearn, TypedLearnFormat};
use super::journal::{named, unreadable};
use super::{Ending, Output};
use crate::catalogue::{self, Catalogue, Origin};
use crate::diag::{Code, Diagnostic, Sources, known_here};
use crate::head::Population;
use crate::journal::{Record, read};
use crate::learn::{FileChange, KeptApart, Learned, Question, changes, learn};
use crate::render::json::{self, Warning};
use crate::render::{html, patch, text};
use itertools::Itertools;
use std::path::Path;

pub(super) fn answer(
    typed: &TypedLearn,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Output, Vec<Diagnostic>> {
    let population = population(typed, catalogue, sources)?;
    let (journals, mut warnings) = journals(&typed.journals)?;
    let kept_apart = match typed.kept_apart {
        TypedKept::Some => KeptApart::Some,
        TypedKept::Latest => KeptApart::Latest,
    };
    let question = Question { population, kept_apart, seed: typed.seed };
    let learned = learn(catalogue, &journals, &question);
    warnings.extend(left_out(&learned));
    let ending = if warnings.is_empty() { Ending::Done } else { Ending::Findings };
    let text = match typed.format {
        TypedLearnFormat::Text => text::learn(catalogue, &question, &learned, (&warnings, text::LEARN_CAUTIONS)),
        TypedLearnFormat::Json => json::text(&json::learn(&question, &learned, (warnings, text::LEARN_CAUTIONS))),
        TypedLearnFormat::Html => html::learn(catalogue, &question, &learned, (&warnings, text::LEARN_CAUTIONS)),
        TypedLearnFormat::Patch => patch::patch(&proposed(typed, &learned)?),
    };
    Ok(Output { text, ending })
}

fn population<'a>(
    typed: &TypedLearn,
    catalogue: &'a Catalogue,
    sources: &mut Sources,
) -> Result<&'a Population, Vec<Diagnostic>> {
    let shops = catalogue.shop.population.as_str();
    let Some(named) = &typed.population else {
        // A catalogue has the population that its shop names.
        return Ok(catalogue.population(shops).unwrap_or(&catalogue.populations()[0]));
    };
    let said = sources.say("--population", named.clone());
    catalogue.population(named).ok_or_else(|| {
        let known = catalogue.populations().iter().map(|known| known.id.as_str()).collect_vec();
        let problem = Diagnostic::error(Code("unknown-population"), format!("there is no population `{named}`"));
        vec![problem.at(said.span, "not in the profiles").help(known_here(named, &known))]
    })
}

/// The records of each journal, and what is wrong with lines.
pub(super) type Heard = (Vec<Vec<Record>>, Vec<Warning>);

/// Every record of these journals; lines that are none are warnings.
pub(super) fn journals(typed: &TypedJournals) -> Result<Heard, Vec<Diagnostic>> {
    let mut journals = Vec::new();
    let mut warnings = Vec::new();
    for path in named(typed)? {
        let contents = read(&path).map_err(|fault| vec![unreadable(&fault)])?;
        if let Some(first) = contents.bad.first() {
            let count = contents.bad_lines;
            let lines = if count == 1 {
                "1 line is no record and is".to_owned()
            } else {
                format!("{count} lines are no records and are")
            };
            let message = format!(
                "{}: {lines} left out; line {} {}. `lidladder journal verify` shows all.",
                path.display(),
                first.line,
                first.why
            );
            warnings.push(Warning { code: "learn-left-out".to_owned(), message });
        }
        journals.push(contents.records.into_iter().map(|(_, record)| record).collect());
    }
    Ok((journals, warnings))
}

/// What the journals hold and nothing can be learned from.
fn left_out(learned: &Learned) -> Vec<Warning> {
    let mut messages = Vec::new();
    if !learned.unknown.is_empty() {
        const NAMED: usize = 5;
        let tries: usize = learned.unknown.iter().map(|unknown| unknown.2).sum();
        let names = learned.unknown.iter().take(NAMED).map(|(model, size, _)| format!("{model}/{size}")).join(", ");
        let more = if learned.unknown.len() > NAMED { " and others" } else { "" };
        let tries =
            if tries == 1 { "1 try is of a helmet".to_owned() } else { format!("{tries} tries are of helmets") };
        messages.push(format!("{tries} that the profiles don't know, and left out: {names}{more}."));
    }
    if learned.twice > 0 {
        let customers = if learned.twice == 1 {
            "1 customer stands".to_owned()
        } else {
            format!("{} customers stand", learned.twice)
        };
        messages.push(format!("{customers} in the journals twice, with the same tries; each is counted once."));
    }
    messages.into_iter().map(|message| Warning { code: "learn-left-out".to_owned(), message }).collect()
}

/// The changes of the files in the profiles folder.
fn proposed(typed: &TypedLearn, learned: &Learned) -> Result<Vec<FileChange>, Vec<Diagnostic>> {
    let Some(folder) = &typed.profiles else {
        let message = "the built-in demo range can't be changed";
        let help = "write it into a folder with `lidladder init my-shop --demo`, and name that with --profiles";
        return Err(vec![Diagnostic::error(Code("nothing-to-patch"), message).help(help)]);
    };
    let mut sources = Sources::default();
    let draft = catalogue::read(&Origin::Folder(folder.clone()), &mut sources);
    let own = learned.population.own.as_ref().map(text::own_population);
    Ok(changes(learned, (&draft, &sources), |name| within(folder, name), own.as_deref()))
}

/// The path of a file within the folder, with `/` between its parts.
fn within(folder: &Path, name: &str) -> String {
    let path = Path::new(name);
    let inner = path.strip_prefix(folder).unwrap_or(path);
    inner.components().map(|part| part.as_os_str().to_string_lossy().into_owned()).join("/")
}
