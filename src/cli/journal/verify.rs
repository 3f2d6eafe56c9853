//! `journal verify`: bad lines, and doubts about good ones.

use super::line::{Excerpt, bad, numbered};
use super::{files, unreadable};
use crate::catalogue::Catalogue;
use crate::cli::args::TypedVerify;
use crate::cli::{Ending, Output};
use crate::diag::{Code, Diagnostic, MOST_PROBLEMS, Severity, Sources, more};
use crate::journal::{Bad, Doubt, Known, Stranger, Suspect, doubts, each_line, read};
use crate::render::{json, text};
use itertools::Itertools;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

pub(super) fn answer(
    typed: &TypedVerify,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Output, Vec<Diagnostic>> {
    let populations = catalogue.populations().iter().map(|population| &population.id).collect_vec();
    let far_apart = catalogue.shop.sketch.far_moved;
    let known = Known { models: catalogue.models(), populations: &populations, far_apart };
    let (mut files, mut tries, mut findings) = (0, 0, Vec::new());
    for path in files::named(&typed.journals)? {
        let contents = read(&path).map_err(|fault| vec![unreadable(&fault)])?;
        files += 1;
        tries += contents.records.len();
        findings.extend(found(&path, &contents.bad, doubts(&contents.records, known), sources)?);
    }
    if typed.strict {
        findings.iter_mut().for_each(|finding| finding.severity = Severity::Error);
    }
    let ending = if findings.is_empty() { Ending::Done } else { Ending::Findings };
    let text = match typed.format.is_json() {
        true => json::text(&json::verified(files, tries, &findings, sources)),
        false => text::verified(files, tries, &findings, sources),
    };
    Ok(Output { text, ending })
}

/// Something that was found on a line.
enum Found<'a> {
    Bad(&'a Bad),
    Suspect(Suspect),
}

/// As many findings as help anybody, each with its place.
fn found(
    path: &Path,
    bad_lines: &[Bad],
    suspects: Vec<Suspect>,
    sources: &mut Sources,
) -> Result<Vec<Diagnostic>, Vec<Diagnostic>> {
    let mut all = bad_lines.iter().map(Found::Bad).chain(suspects.into_iter().map(Found::Suspect)).collect_vec();
    all.sort_by_key(Found::line);
    let are_more = all.len() > MOST_PROBLEMS;
    all.truncate(MOST_PROBLEMS);
    let excerpt = excerpt(path, &all.iter().flat_map(Found::lines).collect(), sources)?;
    let mut told = all.iter().map(|found| found.told(&excerpt, sources)).collect_vec();
    if are_more {
        told.push(more(None));
    }
    Ok(told)
}

/// Reads the text of these lines; no more of the file is held.
fn excerpt(path: &Path, wanted: &BTreeSet<usize>, sources: &mut Sources) -> Result<Excerpt, Vec<Diagnostic>> {
    let mut texts = BTreeMap::new();
    if !wanted.is_empty() {
        let take = |line: &_| {
            let (number, text) = numbered(line);
            if wanted.contains(&number) {
                texts.insert(number, text);
            }
        };
        each_line(path, take).map_err(|fault| vec![unreadable(&fault)])?;
    }
    let lines = texts.iter().map(|(number, text)| (*number, text.as_str()));
    Ok(Excerpt::new(&path.to_string_lossy(), lines, sources))
}

impl Found<'_> {
    fn line(&self) -> usize {
        match self {
            Self::Bad(bad) => bad.line,
            Self::Suspect(suspect) => suspect.line,
        }
    }

    /// All lines that it is about.
    fn lines(&self) -> Vec<usize> {
        match self {
            Self::Suspect(Suspect {
                line,
                doubt: Doubt::Twice { first, .. } | Doubt::Backwards { first, .. } | Doubt::Disagree { first, .. },
            }) => vec![*first, *line],
            other => vec![other.line()],
        }
    }

    fn told(&self, excerpt: &Excerpt, sources: &Sources) -> Diagnostic {
        match self {
            Self::Bad(found) => bad(&found.why, found.line, excerpt, sources),
            Self::Suspect(suspect) => doubtful(suspect, excerpt, sources),
        }
    }
}

fn doubtful(suspect: &Suspect, excerpt: &Excerpt, sources: &Sources) -> Diagnostic {
    let here = |key: &str| excerpt.key(suspect.line, key, sources);
    let there = |line: &usize, key: &str| excerpt.key(*line, key, sources);
    match &suspect.doubt {
        Doubt::Twice { customer, number, first } => {
            let message = format!("try {number} of customer {customer} stands here once more");
            Diagnostic::error(Code("journal-twice"), message)
                .at(here("customer"), "")
                .see(there(first, "customer"), "the first time")
                .help(
                    "no till writes a try twice, so somebody put files together: if both are the same try, take one \
                       out while no till runs; if not, give the second customer another number",
                )
        }
        Doubt::Gap { customer, from, to } => {
            let missing = if from == to { format!("try {from} is") } else { format!("tries {from} to {to} are") };
            Diagnostic::warning(Code("journal-gap"), format!("of customer {customer} {missing} missing"))
                .at(here("try"), "the try after")
                .help("look for a line that was cut off, and for the journal of another till")
        }
        Doubt::Backwards { day, before, first } => {
            Diagnostic::warning(Code("journal-days"), format!("this try is of {day}, the one before it of {before}"))
                .at(here("day"), "")
                .see(there(first, "day"), "the try before")
                .help("a till's clock was wrong, or two customers share a number")
        }
        Doubt::Disagree { measure, one, other, first } => {
            let message = format!("two readings of the {} contradict each other: {one} and {other} mm", measure.name());
            Diagnostic::warning(Code("journal-readings"), message)
                .at(here("customer"), "")
                .see(there(first, "customer"), "the first reading")
                .help("one of them is a slip, or two customers share a number")
        }
        Doubt::Unknown { stranger, more } => unknown(stranger, *more, suspect.line, excerpt, sources),
    }
}

fn unknown(stranger: &Stranger, more: usize, line: usize, excerpt: &Excerpt, sources: &Sources) -> Diagnostic {
    let (what, key) = match stranger {
        Stranger::Population(id) => (format!("population `{id}`"), "population"),
        Stranger::Model(id) => (format!("model `{id}`"), "model"),
        Stranger::Size(model, label) => (format!("size `{label}` of `{model}`"), "size"),
        Stranger::Pad { model, size, zone, hundredths: Some(hundredths) } => {
            let mm = f64::from(*hundredths) / 100.0;
            (format!("{} pad of {mm} mm for `{model}` in {size}", zone.name()), zone.name())
        }
        Stranger::Pad { model, size, zone, hundredths: None } => {
            (format!("way to wear `{model}` in {size} without a {} pad", zone.name()), zone.name())
        }
    };
    let often = match more {
        0 => String::new(),
        1 => ", here and in 1 more try".to_owned(),
        more => format!(", here and in {more} more tries"),
    };
    Diagnostic::warning(Code("journal-unknown"), format!("the profiles know no {what}{often}"))
        .at(excerpt.key(line, key, sources), "")
        .help(
            "no harm, if it was sold once and is no more: nothing is learned from such a try; otherwise name the \
               shop's folder by --profiles, or add it there",
        )
}
