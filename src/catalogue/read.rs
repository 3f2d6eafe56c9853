//! Reading a set of profiles: from a folder, from single files, or the demo range that is compiled in.

use super::files::{Listed, Unread, list, profile_text};
use super::{BUILT_IN, Draft, DraftFile, FileKind};
use crate::diag::{Code, Diagnostic, SourceId, Sources, Span, more};
use crate::profile;
use std::path::{Path, PathBuf};

/// Where so many problems were found, the rest of the files isn't read.
const MOST_PROBLEMS_OF_ALL: usize = 1000;

/// Where profiles come from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Origin {
    /// The demo range.
    BuiltIn,
    /// A folder with `shop.yaml`, `fallbacks.yaml`, `helmets/` and `populations/`.
    Folder(PathBuf),
}

/// Reads a set of profiles as far as it goes; the texts go into `sources`.
pub fn read(origin: &Origin, sources: &mut Sources) -> Draft {
    let mut draft = Draft::default();
    match origin {
        Origin::BuiltIn => return read_texts(BUILT_IN, "built-in/", sources),
        Origin::Folder(folder) => open_folder(folder, &mut draft, sources),
    }
    draft.resolve(sources);
    draft
}

/// Reads files that belong to no set: what they name elsewhere is taken to be there, and the demo range lends its
/// assumptions and populations where none are among them.
pub fn read_files(files: &[PathBuf], sources: &mut Sources) -> Draft {
    let mut draft = Draft::default();
    for path in files {
        if let Some(source) = open_file(path, &mut draft, sources) {
            match kind_of(path, &sources.get(source).text) {
                Some(kind) => draft.files.push(DraftFile { source, kind, is_lent: false }),
                None => draft.problems.push(no_kind(path)),
            }
        }
    }
    let is_given = |kind| draft.files.iter().any(|file| file.kind == kind);
    let lacking: Vec<_> = FileKind::ALL.into_iter().filter(|kind| !is_given(*kind)).collect();
    draft.hidden.extend(&lacking);
    draft.resolve(sources);
    draft.borrow_assumptions(sources);
    draft
}

/// Reads texts, each with its path within a folder; `before` goes before the path where problems name it.
pub fn read_texts(texts: &[(&str, &str)], before: &str, sources: &mut Sources) -> Draft {
    let mut draft = Draft::default();
    for (path, text) in texts {
        let source = sources.add(format!("{before}{path}"), *text);
        draft.files.extend(FileKind::of_path(path).map(|kind| DraftFile { source, kind, is_lent: false }));
    }
    draft.resolve(sources);
    draft
}

fn open_folder(folder: &Path, draft: &mut Draft, sources: &mut Sources) {
    let Listed { files, unread, problems, hidden } = list(folder);
    draft.unopened += problems.len();
    draft.problems.extend(problems);
    draft.hidden.extend(hidden);
    draft.unread = unread;
    for file in files {
        let Some(kind) = FileKind::of_path(&file.to_string_lossy()) else { continue };
        match open_file(&folder.join(&file), draft, sources) {
            Some(source) => draft.files.push(DraftFile { source, kind, is_lent: false }),
            None => drop(draft.hidden.insert(kind)),
        }
    }
}

fn open_file(path: &Path, draft: &mut Draft, sources: &mut Sources) -> Option<SourceId> {
    match profile_text(path) {
        Ok((name, text)) => return Some(sources.add(name, text)),
        Err(Unread::Unopened(problem)) => {
            draft.unopened += 1;
            draft.problems.push(problem);
        }
        Err(Unread::Garbled(problem)) => draft.problems.push(problem),
    }
    None
}

/// What a file is about: by its place in a folder, else by the first key that only files of one kind have.
fn kind_of(path: &Path, text: &str) -> Option<FileKind> {
    let last_two: PathBuf = path.components().rev().take(2).collect::<Vec<_>>().into_iter().rev().collect();
    let name = path.file_name()?.to_string_lossy();
    let by_place =
        FileKind::of_path(&name).or_else(|| FileKind::of_path(&last_two.to_string_lossy().replace('\\', "/")));
    by_place.or_else(|| kind_of_text(text))
}

/// By the first key that only files of one kind have.
fn kind_of_text(text: &str) -> Option<FileKind> {
    let mut keys = text.lines().filter_map(|line| line.split_once(':'));
    keys.find_map(|(key, _)| match key {
        "models" | "maker" | "swap_minutes" => Some(FileKind::Helmets),
        "edges" => Some(FileKind::Fallbacks),
        "components" => Some(FileKind::Population),
        "minutes" | "session" | "measuring" => Some(FileKind::Shop),
        _ => None,
    })
}

/// A file of one kind where another belongs: what is in it would only be told as a heap of wrong keys.
fn misplaced(source: SourceId, meant: FileKind) -> Diagnostic {
    let (what, place) = match meant {
        FileKind::Shop => ("the shop's assumptions", "shop.yaml"),
        FileKind::Fallbacks => ("the shop's rules", "fallbacks.yaml"),
        FileKind::Helmets => ("helmets", "the folder helmets"),
        FileKind::Population => ("a population", "the folder populations"),
    };
    let start = Span { source, start: 0, end: 0 };
    Diagnostic::error(Code("profile-kind"), format!("this file looks like {what}"))
        .at(start, "in the wrong place")
        .help(format!("move it to {place}"))
}

fn no_kind(path: &Path) -> Diagnostic {
    let message = format!("can't tell what {} is about", path.display());
    let help = "a profile file has the key `models`, `edges`, `components` or, for a shop, `minutes`";
    Diagnostic::error(Code("profile-kind"), message).help(help)
}

impl Draft {
    /// Takes the demo range's assumptions where there is no shop, and the populations that they name.
    fn borrow_assumptions(&mut self, sources: &mut Sources) {
        let has_shop = self.files.iter().any(|file| file.kind == FileKind::Shop);
        for (path, text) in BUILT_IN {
            let Some(kind) = FileKind::of_path(path) else { continue };
            if kind == FileKind::Population || (kind == FileKind::Shop && !has_shop) {
                let own = self.populations.len();
                let source = sources.add(format!("built-in/{path}"), *text);
                self.files.push(DraftFile { source, kind, is_lent: true });
                self.resolve_file(source, kind, text);
                // One's own population of the same name comes first.
                let is_own = |id| self.populations[..own].iter().any(|population| population.value.id == id);
                if self.populations.get(own).is_some_and(|lent| is_own(lent.value.id.clone())) {
                    self.populations.truncate(own);
                }
            }
        }
    }

    /// Reads the texts of the files that were opened.
    pub(super) fn resolve(&mut self, sources: &Sources) {
        for at in 0..self.files.len() {
            if self.problems.len() > MOST_PROBLEMS_OF_ALL {
                self.hidden.extend(FileKind::ALL);
                self.problems.push(more(None));
                return;
            }
            let DraftFile { source, kind, .. } = self.files[at];
            self.resolve_file(source, kind, &sources.get(source).text);
        }
    }

    fn resolve_file(&mut self, source: SourceId, kind: FileKind, text: &str) {
        let problems = match kind {
            FileKind::Shop => {
                let read = profile::shop(source, text);
                self.shop = read.value.or(self.shop.take());
                read.problems
            }
            FileKind::Fallbacks => {
                let read = profile::fallbacks(source, text);
                if let Some(rules) = read.value {
                    self.edges.extend(rules.edges);
                    self.unclear.extend(rules.unclear);
                }
                read.problems
            }
            FileKind::Helmets => {
                let read = profile::helmets(source, text);
                if let Some(family) = read.value {
                    self.models.extend(family.models);
                    self.currencies.extend(family.currency);
                }
                read.problems
            }
            FileKind::Population => {
                let read = profile::population(source, text);
                self.populations.extend(read.value);
                read.problems
            }
        };
        self.problems.extend(match kind_of_text(text).filter(|_| !problems.is_empty()) {
            Some(meant) if meant != kind => vec![misplaced(source, meant)],
            _ => problems,
        });
    }
}
