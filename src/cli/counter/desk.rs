//! What is kept of a session while it runs: its notes, and at the end its records.

use crate::cli::journal::unwritable;
use crate::counter::{Event, Opening, from_note, opening_note, read_opening, to_note};
use crate::diag::{Code, Diagnostic};
use crate::journal::{Journal, OpenSession, Record, StoreFault, Waiting};
use itertools::Itertools;
use std::path::{Path, PathBuf};

/// A session's place in a journal, where there is one.
pub(super) struct Desk(Option<(PathBuf, OpenSession)>);

impl Desk {
    /// A new session.
    pub(super) fn open(journal: Option<&Path>, opening: &Opening) -> Result<Self, Vec<Diagnostic>> {
        let Some(path) = journal else { return Ok(Self(None)) };
        let session = Journal::at(path).open_session(&[&opening_note(opening)]).map_err(|fault| kept(&fault))?;
        Ok(Self(Some((path.to_owned(), session))))
    }

    /// A session that was left, with what stands in its notes. Without a number the only one there is.
    pub(super) fn resume(
        journal: Option<&Path>,
        number: Option<u64>,
    ) -> Result<(Self, Opening, Vec<Event>), Vec<Diagnostic>> {
        let path = journal.unwrap_or_else(|| Path::new(""));
        let journal = Journal::at(path);
        let number = match number {
            Some(number) => number,
            None => only(&journal.open_sessions().map_err(|fault| kept(&fault))?)?,
        };
        let (session, notes) = journal.resume(number).map_err(|fault| kept(&fault))?;
        let unclear = |line: usize, why: String| {
            let message = format!("note {} of session {number} can't be understood: {why}", line + 1);
            let help = "another version of the program wrote it, or it was changed by hand; begin a new session";
            vec![Diagnostic::error(Code("session-unclear"), message).help(help)]
        };
        let first = notes.first().map_or("", String::as_str);
        let opening = read_opening(first).map_err(|fault| unclear(0, fault.to_string()))?;
        let events = notes.iter().enumerate().skip(1);
        let events = events.map(|(line, note)| from_note(note).map_err(|fault| unclear(line, fault.to_string())));
        let events = events.collect::<Result<_, _>>()?;
        Ok((Self(Some((path.to_owned(), session))), opening, events))
    }

    /// The customer's number.
    pub(super) fn customer(&self) -> Option<u64> {
        self.0.as_ref().map(|(_, session)| session.customer)
    }

    /// Keeps an event: when this returns, it survives whatever happens to the program.
    pub(super) fn note(&mut self, event: &Event) -> Result<(), Vec<Diagnostic>> {
        match &mut self.0 {
            Some((_, session)) => session.note(&to_note(event)).map_err(|fault| kept(&fault)),
            None => Ok(()),
        }
    }

    /// The customer's number and the journal; `None` where nothing is kept.
    pub(super) fn place(&self) -> Option<(u64, &Path)> {
        self.0.as_ref().map(|(path, session)| (session.customer, path.as_path()))
    }

    /// Writes the records down and closes the session.
    pub(super) fn finish(self, records: &[Record]) -> Result<(), Vec<Diagnostic>> {
        match self.0 {
            Some((_, session)) => session.finish(records).map_err(|fault| kept(&fault)),
            None => Ok(()),
        }
    }
}

/// The number of the only session that waits.
fn only(waiting: &[Waiting]) -> Result<u64, Vec<Diagnostic>> {
    let free = waiting.iter().filter(|session| !session.is_held);
    let numbers = free.map(|session| session.customer).sorted().collect_vec();
    match numbers.as_slice() {
        [one] => Ok(*one),
        [] => Err(vec![no_session(
            "no session of this journal was left open, but for those at other tills",
            "begin a new one without --resume",
        )]),
        [first, ..] => Err(vec![
            Diagnostic::error(Code("session-which"), "more than one session of this journal was left open")
                .help(format!("say which, such as --resume={first}; open are {}", numbers.iter().join(", "))),
        ]),
    }
}

/// Why a session can't be kept, or gone on with.
fn kept(fault: &StoreFault) -> Vec<Diagnostic> {
    match fault {
        StoreFault::InUse(_) | StoreFault::NoSession(_) => {
            vec![no_session(&fault.to_string(), "end it there, or begin a new one without --resume")]
        }
        _ => vec![unwritable(fault)],
    }
}

fn no_session(why: &str, help: &str) -> Diagnostic {
    Diagnostic::error(Code("session-none"), why).help(help)
}
