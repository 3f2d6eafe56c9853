//! `journal`: what stands in journals, what is doubtful in them, and more for them.

mod add;
mod files;
mod line;
mod verify;

pub(super) use files::named;
pub(super) use line::Excerpt;

use super::args::{TypedJournal, TypedJournalTask, TypedListing, TypedTableFormat};
use super::{Ending, Output, load};
use crate::diag::{Code, Diagnostic, Said, Sources, known_here};
use crate::journal::{Day, Ended, Listing, StoreFault, Wanted, read};
use crate::profile::Reason;
use crate::render::{csv, json, text};
use crate::unit::Id;
use itertools::Itertools;

pub(super) fn answer(typed: &TypedJournal, sources: &mut Sources) -> Result<Output, Vec<Diagnostic>> {
    match &typed.task {
        None => list(&typed.listing, sources),
        Some(TypedJournalTask::Verify(verify)) => {
            let catalogue = load(verify.profiles.as_ref(), sources)?;
            verify::answer(verify, &catalogue, sources)
        }
        Some(TypedJournalTask::Add(add)) => add::answer(add, sources),
    }
}

fn list(typed: &TypedListing, sources: &mut Sources) -> Result<Output, Vec<Diagnostic>> {
    let wanted = wanted(typed, sources)?;
    let mut journals = Vec::new();
    for path in files::named(&typed.journals)? {
        let contents = read(&path).map_err(|fault| vec![unreadable(&fault)])?;
        journals.push((path.to_string_lossy().into_owned(), contents));
    }
    let listing = Listing::new(journals, &wanted);
    let ending = if listing.totals.bad_lines > 0 { Ending::Findings } else { Ending::Done };
    let text = match typed.format {
        TypedTableFormat::Text => text::journal(&listing),
        TypedTableFormat::Json => json::text(&json::journal(&listing)),
        TypedTableFormat::Csv => csv::journal(&listing),
    };
    Ok(Output { text, ending })
}

/// What the filters mean, or all that is wrong with them.
fn wanted(typed: &TypedListing, sources: &mut Sources) -> Result<Wanted, Vec<Diagnostic>> {
    let mut problems = Vec::new();
    let mut meant = |name: &str, typed: &Option<String>| typed.as_ref().map(|text| sources.say(name, text.clone()));
    let [model, size] = [("--model", &typed.model), ("--size", &typed.size)].map(|(name, text)| meant(name, text));
    let [since, until] = [("--since", &typed.since), ("--until", &typed.until)].map(|(name, text)| meant(name, text));
    let reason = meant("--reason", &typed.reason);
    let wanted = Wanted {
        model: model.and_then(|said| id(&said, &mut problems)),
        size: size.and_then(|said| id(&said, &mut problems)),
        ended: reason.and_then(|said| ended(&said, &mut problems)),
        customer: typed.customer,
        since: since.and_then(|said| day(&said, &mut problems)),
        until: until.and_then(|said| day(&said, &mut problems)),
    };
    if problems.is_empty() { Ok(wanted) } else { Err(problems) }
}

fn id(said: &Said, problems: &mut Vec<Diagnostic>) -> Option<Id> {
    let problem = |fault| {
        let problem = Diagnostic::error(Code("not-a-name"), "this is no name of a model or a size");
        problem.at(said.span, "here").help(format!("{fault}"))
    };
    Id::try_from(said.text.as_str()).map_err(|fault| problems.push(problem(fault))).ok()
}

/// A day of the calendar.
pub(super) fn day(said: &Said, problems: &mut Vec<Diagnostic>) -> Option<Day> {
    let problem = |fault| {
        let problem = Diagnostic::error(Code("not-a-day"), "there is no such day").at(said.span, "here");
        problem.help(format!("{fault}"))
    };
    Day::try_from(said.text.as_str()).map_err(|fault| problems.push(problem(fault))).ok()
}

fn ended(said: &Said, problems: &mut Vec<Diagnostic>) -> Option<Ended> {
    let ended = Ended::from_id(&said.text);
    if ended.is_none() {
        let known = std::iter::once("fits").chain(Reason::ALL.map(Reason::id)).collect_vec();
        let problem = Diagnostic::error(Code("unknown-reason"), "no try ends like this").at(said.span, "here");
        problems.push(problem.help(known_here(&said.text, &known)));
    }
    ended
}

/// Why a journal can't be read, and what to do.
pub(super) fn unreadable(fault: &StoreFault) -> Diagnostic {
    let help = "check the path and who may read the file; a journal is a file with a line of JSON for each try";
    Diagnostic::error(Code("journal-unreadable"), fault.to_string()).help(help)
}

/// Why a journal can't be written, and what to do.
pub(super) fn unwritable(fault: &StoreFault) -> Diagnostic {
    let help = "what was named before is safe, whatever comes after may be missing: see to the disk, the path and who \
                may write there, then hand in the rest again, as often as needed";
    Diagnostic::error(Code("journal-unwritable"), fault.to_string()).help(help)
}
