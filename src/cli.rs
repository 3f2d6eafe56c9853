//! The command line: load → compute → render → exit code.

mod args;
mod audit;
mod away;
mod cards;
mod check;
mod counter;
mod drill;
mod fallbacks;
mod fit;
mod init;
mod journal;
mod learn;
mod listener;
mod meter;
mod notes;
mod output;
mod pads;
mod plan;
mod propose;
mod range;
mod resolve;
mod schema;
mod sketch;
mod terminal;
mod today;
mod why;

use crate::catalogue::{self, Catalogue, Origin};
use crate::diag::{Diagnostic, Sources};
use args::{Typed, TypedCommand, TypedFormat, TypedTask};
use output::Place;
use std::ffi::OsString;
use std::path::PathBuf;
use terminal::Terminal;

/// How a run ended, as a process says it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Ending {
    /// It did what was asked.
    Done = 0,
    /// It did, and there is something to look at, or nothing fits.
    Findings = 1,
    /// It could not.
    CouldNot = 2,
}

/// What a command made, before anything is shown.
struct Output {
    text: String,
    ending: Ending,
}

/// Runs the program with these arguments, the first being its name, and returns the exit code: 0 done, 1 findings
/// or no fit, 2 could not do it. Writes to standard output and standard error; a reader that went away is no error.
pub fn run(args: impl IntoIterator<Item = OsString>) -> u8 {
    let terminal = Terminal;
    let typed = match args::parse(args) {
        Ok(typed) => typed,
        Err(shown) if shown.is_error => {
            terminal.say(&shown.text);
            return Ending::CouldNot as u8;
        }
        Err(shown) => return terminal.show(&shown.text, Ending::Done) as u8,
    };
    let mut sources = Sources::default();
    let answered = Place::of(typed.output.as_ref()).and_then(|place| place.take(answer(&typed, &mut sources)?));
    match answered {
        Ok(output) => terminal.show(&output.text, output.ending) as u8,
        Err(problems) => {
            terminal.explain(&problems, &sources);
            Ending::CouldNot as u8
        }
    }
}

fn answer(typed: &Typed, sources: &mut Sources) -> Result<Output, Vec<Diagnostic>> {
    match &typed.command {
        TypedCommand::Check(check) => Ok(check::answer(check, sources)),
        TypedCommand::Plan(plan) => {
            let catalogue = load(plan.common.profiles.as_ref(), sources)?;
            plan::answer(plan, &catalogue, sources)
        }
        TypedCommand::Counter(counter) => {
            let catalogue = load(counter.profiles.as_ref(), sources)?;
            counter::answer(counter, &catalogue, sources)
        }
        TypedCommand::Drill(drill) => {
            let catalogue = load(drill.profiles.as_ref(), sources)?;
            drill::answer(drill, &catalogue, sources)
        }
        TypedCommand::Fit(fit) => {
            let catalogue = load(fit.common.profiles.as_ref(), sources)?;
            fit::answer(fit, &catalogue, sources)
        }
        TypedCommand::Fallbacks(fallbacks) => {
            let catalogue = load(fallbacks.profiles(), sources)?;
            match &fallbacks.task {
                None => fallbacks::answer(&fallbacks.shown, &catalogue, sources),
                Some(TypedTask::Audit(audit)) => audit::answer(audit, &catalogue, sources),
                Some(TypedTask::Propose(propose)) => propose::answer(propose, &catalogue, sources),
            }
        }
        TypedCommand::Pads(pads) => {
            let catalogue = load(pads.profiles.as_ref(), sources)?;
            pads::answer(pads, &catalogue, sources)
        }
        TypedCommand::Away(away) => {
            let catalogue = load(away.profiles(), sources)?;
            away::answer(away, &catalogue, sources)
        }
        TypedCommand::Cards(cards) => {
            let catalogue = load(cards.people.profiles.as_ref(), sources)?;
            cards::answer(cards, &catalogue, sources)
        }
        TypedCommand::Init(init) => init::answer(init),
        TypedCommand::Journal(journal) => journal::answer(journal, sources),
        TypedCommand::Learn(learn) => {
            let catalogue = load(learn.profiles.as_ref(), sources)?;
            learn::answer(learn, &catalogue, sources)
        }
        TypedCommand::Range(range) => {
            let catalogue = load(range.profiles(), sources)?;
            range::answer(range, &catalogue, sources)
        }
        TypedCommand::Schema(schema) => Ok(schema::answer(schema)),
        TypedCommand::Sketch(sketch) => {
            let catalogue = load(sketch.common.profiles.as_ref(), sources)?;
            sketch::answer(sketch, &catalogue, sources)
        }
    }
}

fn load(folder: Option<&PathBuf>, sources: &mut Sources) -> Result<Catalogue, Vec<Diagnostic>> {
    let origin = folder.cloned().map_or(Origin::BuiltIn, Origin::Folder);
    catalogue::load(&origin, sources)
}

impl TypedFormat {
    fn is_json(self) -> bool {
        self == Self::Json
    }
}
