//! Reading files that anybody may have put there: what a file is is looked at before it is opened, and all is bounded.
//!
//! A folder may hold anything: a pipe that nobody writes into, a device that never ends, a link to itself, a million
//! files. Each is one problem, found without waiting and without filling the memory.

use super::FileKind;
use crate::diag::{Code, Diagnostic};
use crate::profile::{MOST_BYTES, text_of};
use std::ffi::OsString;
use std::fs::{self, Metadata};
use std::io::{self, Read};
use std::path::{Path, PathBuf};

/// How many files a set of profiles may have. Each family of helmets is one.
pub const MOST_FILES: usize = 2000;

/// How many bytes they may have together. A thousand models take about 4 MB.
pub const MOST_BYTES_OF_ALL: u64 = 8 * 1024 * 1024;

/// How many things of any kind may lie in one folder.
const MOST_ENTRIES: usize = 100_000;

/// The bytes of a file, but hardly more than any text is read of.
///
/// # Errors
///
/// What the system says, or what the path leads to if that is no file.
pub fn read_capped(path: &Path) -> io::Result<Vec<u8>> {
    let found = fs::metadata(path)?;
    if !found.is_file() && !is_stream_of_the_shell(path) {
        return Err(io::Error::other(format!("it is {}, not a file", kind(&found))));
    }
    let mut bytes = Vec::new();
    fs::File::open(path)?.take(MOST_BYTES as u64 + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// What lies in a profiles folder.
#[derive(Debug, Default)]
pub(super) struct Listed {
    /// The files of the set, by their paths within the folder, in the order in which they are read: the same whatever
    /// the order on disk. None where there are too many.
    pub(super) files: Vec<PathBuf>,
    /// Files and folders that nothing reads.
    pub(super) unread: Vec<String>,
    /// What is missing, or too much.
    pub(super) problems: Vec<Diagnostic>,
    /// The kinds of files of which some may be missing.
    pub(super) hidden: Vec<FileKind>,
}

/// Why a file has no text.
pub(super) enum Unread {
    /// It can't be opened.
    Unopened(Diagnostic),
    /// Its bytes are no text, or too many.
    Garbled(Diagnostic),
}

/// Lists a profiles folder.
pub(super) fn list(folder: &Path) -> Listed {
    let mut listed = Listed::default();
    if let Err(fault) = fs::read_dir(folder) {
        let help = "name a folder with shop.yaml, fallbacks.yaml, helmets and populations, or a profile file";
        listed.problems.push(unreadable(folder, &fault, help));
        listed.hidden.extend(FileKind::ALL);
        return listed;
    }
    listed.files.extend(["shop.yaml".into(), "fallbacks.yaml".into()]);
    for (sub, kind) in [("helmets", FileKind::Helmets), ("populations", FileKind::Population)] {
        let help = "a profiles folder has the subfolders helmets and populations";
        match yaml_files(&folder.join(sub)) {
            Ok(names) => listed.files.extend(names.into_iter().map(|name| Path::new(sub).join(name))),
            Err(fault) => {
                listed.problems.push(unreadable(&folder.join(sub), &fault, help));
                listed.hidden.push(kind);
            }
        }
    }
    if let Some(problem) = too_much(folder, &listed.files) {
        listed.problems.push(problem);
        listed.hidden.extend(FileKind::ALL);
        listed.files.clear();
    }
    listed.unread = unread(folder);
    listed
}

/// The name and the text of a file of a set.
#[expect(clippy::result_large_err, reason = "happens once a file at most")]
pub(super) fn profile_text(path: &Path) -> Result<(String, String), Unread> {
    let name = path.to_string_lossy().into_owned();
    let help = "a profiles folder has shop.yaml and fallbacks.yaml; compare with the built-in range";
    let bytes = read_capped(path).map_err(|fault| Unread::Unopened(unreadable(path, &fault, help)))?;
    let text = text_of(&name, bytes).map_err(Unread::Garbled)?;
    Ok((name, text))
}

/// Files and folders that nothing reads. Hidden ones are somebody else's, and so are a page that explains the folder
/// and the schemas for editors.
fn unread(folder: &Path) -> Vec<String> {
    let mut unread = Vec::new();
    for sub in ["", "helmets", "populations"] {
        // A folder that can't be listed was told already.
        for entry in fs::read_dir(folder.join(sub)).into_iter().flatten().flatten().take(MOST_ENTRIES) {
            let name = entry.file_name().to_string_lossy().into_owned();
            let is_read = match sub {
                "" => matches!(name.as_str(), "shop.yaml" | "fallbacks.yaml" | "helmets" | "populations"),
                _ => is_yaml(Path::new(&name)),
            };
            let is_known =
                name.starts_with('.') || (sub.is_empty() && (name == "schema" || name.starts_with("README")));
            if !is_read && !is_known {
                unread.push(entry.path().to_string_lossy().into_owned());
            }
        }
    }
    unread.sort();
    unread.truncate(MOST_UNREAD);
    unread
}

/// More files that nothing reads than these help nobody.
const MOST_UNREAD: usize = 100;

fn is_yaml(name: &Path) -> bool {
    name.extension().is_some_and(|ext| ext == "yaml" || ext == "yml")
}

fn unreadable(path: &Path, fault: &io::Error, help: &str) -> Diagnostic {
    let message = format!("can't read {}: {fault}", path.display());
    Diagnostic::error(Code("profile-unreadable"), message).help(help)
}

fn too_much(folder: &Path, files: &[PathBuf]) -> Option<Diagnostic> {
    // A file that can't be asked for its length can't be read either, which is told then.
    let length = |file: &PathBuf| fs::metadata(folder.join(file)).map_or(0, |found| found.len());
    let what = if files.len() > MOST_FILES {
        format!("more than the {MOST_FILES} files that are read")
    } else if files.iter().map(length).sum::<u64>() > MOST_BYTES_OF_ALL {
        format!("more than the {MOST_BYTES_OF_ALL} bytes that are read in all")
    } else {
        return None;
    };
    let message = format!("{} holds {what}", folder.display());
    Some(Diagnostic::error(Code("profile-too-large"), message).help("is this the right folder?"))
}

/// Names of the `.yaml` files of a folder, sorted; one too many at most. Hidden ones are those of an editor or of
/// the system, and no profiles.
fn yaml_files(folder: &Path) -> io::Result<Vec<OsString>> {
    yaml_names(fs::read_dir(folder)?.map(|entry| entry.map(|entry| entry.file_name())))
}

fn yaml_names(all: impl Iterator<Item = io::Result<OsString>>) -> io::Result<Vec<OsString>> {
    let mut names = Vec::new();
    for (number, name) in all.enumerate() {
        let name = name?;
        let is_hidden = name.as_encoded_bytes().starts_with(b".");
        if !is_hidden && is_yaml(Path::new(&name)) {
            names.push(name);
        }
        if number == MOST_ENTRIES {
            return Err(io::Error::other(format!("it holds more than {MOST_ENTRIES} things")));
        }
        if names.len() > MOST_FILES {
            break;
        }
    }
    names.sort();
    Ok(names)
}

/// What a shell hands over in place of a file, with somebody at its other end, and the empty file of the system.
fn is_stream_of_the_shell(path: &Path) -> bool {
    let is_one = |name: &str| path == Path::new(name);
    is_one("/dev/stdin") || is_one("/dev/null") || path.parent() == Some(Path::new("/dev/fd"))
}

/// What something is that is no file.
fn kind(found: &Metadata) -> &'static str {
    if found.is_dir() {
        return "a folder";
    }
    #[cfg(unix)]
    {
        use std::os::unix::fs::FileTypeExt;
        let kind = found.file_type();
        if kind.is_fifo() {
            return "a pipe";
        }
        if kind.is_socket() {
            return "a socket";
        }
    }
    "a device"
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    fn names(all: &[&str]) -> Vec<OsString> {
        yaml_names(all.iter().map(|name| Ok(OsString::from(name)))).unwrap()
    }

    #[test]
    fn profiles_are_listed_in_order_and_nothing_else() {
        assert_eq!(
            names(&["b.yaml", "a.yml", "notes.txt", "yaml", ".b.yaml.swp", "._a.yaml", ".#c.yaml"]),
            ["a.yml", "b.yaml"]
        );
    }

    #[test]
    fn a_folder_is_not_listed_without_end() {
        let others = (0..).map(|number| Ok(OsString::from(format!("{number}.jpg"))));
        assert_eq!(yaml_names(others).unwrap_err().to_string(), "it holds more than 100000 things");
        let files = (0..).map(|number| Ok(OsString::from(format!("{number}.yaml"))));
        assert_eq!(yaml_names(files).unwrap().len(), MOST_FILES + 1);
    }

    #[test]
    fn a_folder_that_breaks_off_is_told() {
        let all = [Ok(OsString::from("a.yaml")), Err(io::Error::other("gone"))];
        assert_eq!(yaml_names(all.into_iter()).unwrap_err().to_string(), "gone");
    }

    #[rstest]
    #[case("/dev/stdin", true)]
    #[case("/dev/fd/63", true)]
    #[case("/dev/null", true)]
    #[case("/dev/zero", false)]
    #[case("/dev/fd/../zero", false)]
    #[case("pipe", false)]
    fn only_what_a_shell_hands_over_is_read_like_a_file(#[case] path: &str, #[case] expected: bool) {
        assert_eq!(is_stream_of_the_shell(Path::new(path)), expected);
    }
}
