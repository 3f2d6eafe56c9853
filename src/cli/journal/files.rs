//! Which journals are meant.

use crate::cli::args::TypedJournals;
use crate::diag::{Code, Diagnostic};
use glob::glob;
use std::path::{Path, PathBuf};

/// The files that were named, patterns replaced by what they stand for, or the journal of the surroundings.
pub(in crate::cli) fn named(typed: &TypedJournals) -> Result<Vec<PathBuf>, Vec<Diagnostic>> {
    let named = if typed.files.is_empty() { typed.journal.as_slice() } else { &typed.files };
    if named.is_empty() {
        return Err(vec![missing()]);
    }
    let mut paths = Vec::new();
    for path in named {
        if is_pattern(path) {
            paths.extend(matching(path)?);
        } else {
            paths.push(path.clone());
        }
    }
    Ok(paths)
}

/// That nobody said which journal is meant.
pub(super) fn missing() -> Diagnostic {
    Diagnostic::error(Code("journal-unnamed"), "which journal is meant?")
        .help("name a file, or set LIDLADDER_JOURNAL to the one that is meant where none is named")
}

/// A file may be called anything: what is there is no pattern.
fn is_pattern(path: &Path) -> bool {
    path.to_str().is_some_and(|text| text.contains(['*', '?', '['])) && !path.exists()
}

/// In the order of their names.
fn matching(pattern: &Path) -> Result<Vec<PathBuf>, Vec<Diagnostic>> {
    let text = pattern.to_string_lossy();
    let told = |what: String| {
        vec![Diagnostic::error(Code("journal-unreadable"), what).help("check the pattern, or name the files")]
    };
    let found = glob(&text).map_err(|fault| told(format!("{text} is no pattern: {fault}")))?;
    let paths: Vec<PathBuf> = found.collect::<Result<_, _>>().map_err(|fault| told(fault.to_string()))?;
    if paths.is_empty() { Err(told(format!("no file is called like {text}"))) } else { Ok(paths) }
}
