//! Reading a set of profiles: from a folder, from single files, or the demo range that is compiled in.

use super::{BUILT_IN, Draft, DraftFile, FileKind};
use crate::diag::{Code, Diagnostic, SourceId, Sources};
use crate::profile;
use std::fs;
use std::io::Read as _;
use std::path::{Path, PathBuf};

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
        Origin::BuiltIn => {
            for (path, text) in BUILT_IN {
                let source = sources.add(format!("built-in/{path}"), *text);
                draft.files.extend(FileKind::of_path(path).map(|kind| DraftFile { source, kind, is_lent: false }));
            }
        }
        Origin::Folder(folder) => open_folder(folder, &mut draft, sources),
    }
    draft.resolve(sources);
    draft
}

/// The bytes of a file, but hardly more than any text is read of: a device that never ends can't fill the memory.
pub fn read_capped(path: &Path) -> std::io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    fs::File::open(path)?.take(profile::MOST_BYTES as u64 + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}

fn open_folder(folder: &Path, draft: &mut Draft, sources: &mut Sources) {
    if let Err(fault) = fs::read_dir(folder) {
        draft.hidden.extend(FileKind::ALL);
        let help = "name a folder with shop.yaml, fallbacks.yaml, helmets and populations";
        return draft.unreadable(folder, &fault, help);
    }
    let mut files = vec![("shop.yaml".into(), FileKind::Shop), ("fallbacks.yaml".into(), FileKind::Fallbacks)];
    for (sub, kind) in [("helmets", FileKind::Helmets), ("populations", FileKind::Population)] {
        match yaml_files(&folder.join(sub)) {
            Ok(names) => files.extend(names.into_iter().map(|name| (Path::new(sub).join(name), kind))),
            Err(fault) => {
                draft.hidden.insert(kind);
                let help = "a profiles folder has the subfolders helmets and populations";
                draft.unreadable(&folder.join(sub), &fault, help);
            }
        }
    }
    let help = "a profiles folder has shop.yaml and fallbacks.yaml; compare with the built-in range";
    for (file, kind) in files {
        open_file(&folder.join(file), kind, help, draft, sources);
    }
}

fn open_file(path: &Path, kind: FileKind, help: &str, draft: &mut Draft, sources: &mut Sources) {
    let name = path.to_string_lossy().into_owned();
    match read_capped(path).map(|bytes| profile::text_of(&name, bytes)) {
        Ok(Ok(text)) => draft.files.push(DraftFile { source: sources.add(name, text), kind, is_lent: false }),
        Ok(Err(problem)) => {
            draft.hidden.insert(kind);
            draft.problems.push(problem);
        }
        Err(fault) => {
            draft.hidden.insert(kind);
            draft.unreadable(path, &fault, help);
        }
    }
}

impl Draft {
    fn unreadable(&mut self, path: &Path, fault: &std::io::Error, help: &str) {
        let message = format!("can't read {}: {fault}", path.display());
        self.problems.push(Diagnostic::error(Code("profile-unreadable"), message).help(help));
    }

    /// Reads the texts of the files that were opened.
    fn resolve(&mut self, sources: &Sources) {
        for at in 0..self.files.len() {
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
                self.edges.extend(read.value.into_iter().flatten());
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
        self.problems.extend(problems);
    }
}

/// Names of the `.yaml` files of a folder, sorted, so that the order on disk changes nothing.
fn yaml_files(folder: &Path) -> std::io::Result<Vec<std::ffi::OsString>> {
    let mut names = Vec::new();
    for entry in fs::read_dir(folder)? {
        let name = entry?.file_name();
        if Path::new(&name).extension().is_some_and(|ext| ext == "yaml" || ext == "yml") {
            names.push(name);
        }
    }
    names.sort();
    Ok(names)
}
