//! `check`: everything that is wrong or doubtful with profiles, in one run.

use super::args::{TypedCheck, TypedFormat};
use super::{Ending, Output};
use crate::catalogue::{Draft, Origin, read, read_files};
use crate::check::{Tally, check};
use crate::diag::{Diagnostic, Severity, Sources};
use crate::render::{json, text};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

pub(super) fn answer(typed: &TypedCheck, sources: &mut Sources) -> Output {
    let mut found = Found::default();
    if typed.paths.is_empty() {
        let origin = typed.profiles.clone().map_or(Origin::BuiltIn, Origin::Folder);
        found.take(&read(&origin, sources), sources, None);
    }
    let Named { folders, strangers } = Named::of(&typed.paths);
    for (folder, files) in folders {
        found.take(&read(&Origin::Folder(folder), sources), sources, files.as_deref());
    }
    if !strangers.is_empty() {
        found.take(&read_files(&strangers, sources), sources, None);
    }
    if typed.strict {
        found.findings.iter_mut().for_each(|finding| finding.severity = Severity::Error);
    }
    let Found { tally, findings, could_read_all } = found;
    let ending = match (could_read_all, findings.is_empty()) {
        (false, _) => Ending::CouldNot,
        (true, false) => Ending::Findings,
        (true, true) => Ending::Done,
    };
    let text = match typed.format {
        TypedFormat::Json => json::text(&json::check(&tally, &findings, sources)),
        TypedFormat::Text => text::check(&tally, &findings, sources),
    };
    Output { text, ending }
}

/// Paths, sorted by what they are part of.
#[derive(Default)]
struct Named {
    /// Profiles folders; of those that only files were named of, the files.
    folders: BTreeMap<PathBuf, Option<Vec<PathBuf>>>,
    /// Files that are in no profiles folder.
    strangers: Vec<PathBuf>,
}

impl Named {
    fn of(paths: &[PathBuf]) -> Self {
        let mut named = Self::default();
        for path in paths {
            if path.is_dir() || !path.exists() {
                named.folders.insert(path.clone(), None);
            } else if let Some(folder) = folder_of(path) {
                if let Some(files) = named.folders.entry(folder).or_insert_with(|| Some(Vec::new())) {
                    files.push(path.clone());
                }
            } else {
                named.strangers.push(path.clone());
            }
        }
        named
    }
}

/// The profiles folder that a file is part of.
fn folder_of(path: &Path) -> Option<PathBuf> {
    let is_here = |folder: &&Path| folder.join("shop.yaml").is_file() && folder.join("helmets").is_dir();
    let folder = path.parent()?;
    [Some(folder), folder.parent()].into_iter().flatten().find(is_here).map(Path::to_owned)
}

struct Found {
    tally: Tally,
    findings: Vec<Diagnostic>,
    could_read_all: bool,
}

impl Default for Found {
    fn default() -> Self {
        Self { tally: Tally::default(), findings: Vec::new(), could_read_all: true }
    }
}

impl Found {
    /// Checks a draft; of `files` alone, where they are given, and of what has no place.
    fn take(&mut self, draft: &Draft, sources: &Sources, files: Option<&[PathBuf]>) {
        self.tally += Tally::of(draft, sources);
        self.could_read_all &= draft.unopened == 0;
        let is_wanted = |finding: &Diagnostic| {
            let Some(files) = files else { return true };
            let mut labels = finding.place.iter().chain(&finding.related);
            let is_in = |name: &str| files.iter().any(|file| Path::new(name) == file);
            finding.place.is_none() || labels.any(|label| is_in(&sources.get(label.span.source).name))
        };
        self.findings.extend(check(draft, sources).into_iter().filter(is_wanted));
    }
}
