//! Reading files that anybody may have put there: what a file is is looked at before it is opened, and all is bounded.
//!
//! A folder may hold anything: a pipe that nobody writes into, a device that never ends, a link to itself, a million
//! files. Each is one problem, found without waiting and without filling the memory.

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

/// The files of a set of profiles, by their paths within the folder, in the order in which they are read: the same
/// whatever the order on disk. None where there are too many; what is missing or too much goes to the problems.
pub(super) fn profile_files(folder: &Path, problems: &mut Vec<Diagnostic>) -> Vec<PathBuf> {
    let help = "name a folder with shop.yaml, fallbacks.yaml, helmets and populations";
    if let Err(fault) = fs::read_dir(folder) {
        problems.push(unreadable(folder, &fault, help));
        return Vec::new();
    }
    let mut files: Vec<PathBuf> = vec!["shop.yaml".into(), "fallbacks.yaml".into()];
    for sub in ["helmets", "populations"] {
        let help = "a profiles folder has the subfolders helmets and populations";
        match yaml_files(&folder.join(sub)) {
            Ok(names) => files.extend(names.into_iter().map(|name| Path::new(sub).join(name))),
            Err(fault) => problems.push(unreadable(&folder.join(sub), &fault, help)),
        }
    }
    if let Some(problem) = too_much(folder, &files) {
        problems.push(problem);
        return Vec::new();
    }
    files
}

/// The name and the text of a file of a set.
#[expect(clippy::result_large_err, reason = "happens once a file at most")]
pub(super) fn profile_text(path: &Path) -> Result<(String, String), Diagnostic> {
    let name = path.to_string_lossy().into_owned();
    let help = "a profiles folder has shop.yaml and fallbacks.yaml; compare with the built-in range";
    let bytes = read_capped(path).map_err(|fault| unreadable(path, &fault, help))?;
    let text = text_of(&name, bytes)?;
    Ok((name, text))
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
        if !is_hidden && Path::new(&name).extension().is_some_and(|ext| ext == "yaml" || ext == "yml") {
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
