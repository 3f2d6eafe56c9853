//! A trainee's own results: a file that is theirs to mend and to delete.

use crate::cli::journal::Excerpt;
use crate::diag::{Code, Diagnostic, MOST_PROBLEMS, Sources, note};
use crate::drill::{BadPlace, BadResult, Kept, MOST_CUSTOMERS, Past, past};
use crate::journal::{StoreFault, append_line, each_line, make_file};
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

/// What a trainee has done so far; kept in a file where one was named.
pub(super) struct Results {
    path: Option<PathBuf>,
    kept: Vec<Kept>,
    /// What could be slipped into before this run.
    earlier: Past,
}

impl Results {
    /// What the file holds; it is made where it is missing. Nothing is changed where a line can't be read.
    pub(super) fn open(path: Option<&Path>, sources: &mut Sources) -> Result<Self, Vec<Diagnostic>> {
        let Some(path) = path else { return Ok(Self { path: None, kept: Vec::new(), earlier: Past::default() }) };
        let kept = read(path, sources)?;
        make_file(path).map_err(|fault| vec![unusable(&fault.to_string())])?;
        Ok(Self { path: Some(path.to_owned()), earlier: past(&kept), kept })
    }

    /// Where they are kept.
    pub(super) fn path(&self) -> Option<&Path> {
        self.path.as_deref()
    }

    /// The number of the first of so many customers that nobody of this file has had.
    pub(super) fn next_number(&self, customers: u64) -> Result<u64, Vec<Diagnostic>> {
        let highest = self.kept.iter().map(|kept| kept.number).max().unwrap_or(0);
        if highest + customers > MOST_CUSTOMERS {
            let why = format!("the results name customer {highest}, and no {customers} numbers come after it");
            return Err(vec![unusable(&why)]);
        }
        Ok(highest + 1)
    }

    /// What could be slipped into before this run, in order.
    pub(super) fn earlier(&self) -> &Past {
        &self.earlier
    }

    /// What could be slipped into so far, in order.
    pub(super) fn past(&self) -> Past {
        past(&self.kept)
    }

    /// Keeps the result of a finished task: when this returns, it survives whatever happens to the program.
    pub(super) fn keep(&mut self, kept: Kept) -> Result<(), Vec<Diagnostic>> {
        if let Some(path) = &self.path {
            append_line(path, &kept.to_line()).map_err(|fault| vec![unusable(&fault.to_string())])?;
        }
        self.kept.push(kept);
        Ok(())
    }
}

/// All results of a file, or all lines that are none.
fn read(path: &Path, sources: &mut Sources) -> Result<Vec<Kept>, Vec<Diagnostic>> {
    let (mut kept, mut bad) = (Vec::new(), Vec::new());
    let read = each_line(path, |line| match Kept::from_line(&line.text()) {
        Ok(result) => kept.push(result),
        Err(fault) if bad.len() <= MOST_PROBLEMS => bad.push((line.number, line.text(), fault)),
        Err(_) => {}
    });
    match read {
        Ok(()) if bad.is_empty() => Ok(kept),
        Ok(()) => Err(told(path, &bad, sources)),
        Err(StoreFault::System { fault, .. }) if fault.kind() == ErrorKind::NotFound => Ok(Vec::new()),
        Err(fault) => Err(vec![unusable(&fault.to_string())]),
    }
}

fn told(path: &Path, bad: &[(usize, String, BadResult)], sources: &mut Sources) -> Vec<Diagnostic> {
    let lines = bad.iter().map(|(number, text, _)| (*number, text.as_str()));
    let excerpt = Excerpt::new(&path.to_string_lossy(), lines, sources);
    let mut problems = Vec::new();
    for (number, _, fault) in bad {
        let span = match fault.place {
            BadPlace::Column(column) => excerpt.column(*number, column, sources),
            BadPlace::Key(key) => excerpt.key(*number, key, sources),
        };
        note(&mut problems, || {
            Diagnostic::error(Code("results-line"), format!("this line is no result: {fault}"))
                .at(span, "")
                .help("the file is yours: mend or delete the line, or the file; nothing was changed")
        });
    }
    problems
}

fn unusable(why: &str) -> Diagnostic {
    Diagnostic::error(Code("results-unusable"), format!("can't keep results: {why}"))
        .help("check the path and who may write there; results stand in a file of their own, which is made if missing")
}
