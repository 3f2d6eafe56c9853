//! `init`: a new profiles folder. The only place that writes files, and it overwrites none.

use super::args::TypedInit;
use super::{Ending, Output};
use crate::catalogue::{Beginning, NewFile, beginning};
use crate::diag::{Code, Diagnostic};
use crate::render::text;
use std::fs::{self, File};
use std::io::{self, ErrorKind, Write};
use std::path::Path;

pub(super) fn answer(typed: &TypedInit) -> Result<Output, Vec<Diagnostic>> {
    let kind = if typed.demo { Beginning::Demo } else { Beginning::Starter };
    let files = beginning(kind);
    leaves_all_alone(&typed.folder, &files).and_then(|()| write(&typed.folder, &files)).map_err(|fault| vec![fault])?;
    let text = text::init(&typed.folder.to_string_lossy(), kind, &files);
    Ok(Output { text, ending: Ending::Done })
}

/// Nothing is written while anything stands where a file of ours would.
#[expect(clippy::result_large_err, reason = "happens once a run at most")]
fn leaves_all_alone(folder: &Path, files: &[NewFile]) -> Result<(), Diagnostic> {
    let mut in_the_way = Vec::new();
    if is_there(folder)? && !folder.is_dir() {
        in_the_way.push(folder.display().to_string());
    } else {
        for file in files {
            let path = folder.join(&file.path);
            let below = path.parent().filter(|below| *below != folder);
            let blocked = match below {
                Some(below) if is_there(below)? && !below.is_dir() => Some(below),
                _ if is_there(&path)? => Some(path.as_path()),
                _ => None,
            };
            in_the_way.extend(blocked.map(|path| path.display().to_string()));
        }
        in_the_way.dedup();
    }
    let (is, it) = if in_the_way.len() == 1 { ("is", "it") } else { ("are", "them") };
    match in_the_way.as_slice() {
        [] => Ok(()),
        names => {
            let message = format!("{} {is} there already, and nothing was written", names.join(", "));
            let help = format!("name a new folder, or move {it} away: init never overwrites a file");
            Err(Diagnostic::error(Code("init-in-the-way"), message).help(help))
        }
    }
}

/// Whether anything has this name, a link that leads nowhere included.
#[expect(clippy::result_large_err, reason = "happens once a run at most")]
fn is_there(path: &Path) -> Result<bool, Diagnostic> {
    match path.symlink_metadata() {
        Ok(_) => Ok(true),
        Err(fault) if matches!(fault.kind(), ErrorKind::NotFound | ErrorKind::NotADirectory) => Ok(false),
        Err(fault) => Err(unwritable(path, &fault, "nothing was written")),
    }
}

/// Writes them one after another; each is made anew, so that not even a file that appears meanwhile is overwritten.
#[expect(clippy::result_large_err, reason = "happens once a run at most")]
fn write(folder: &Path, files: &[NewFile]) -> Result<(), Diagnostic> {
    for (count, file) in files.iter().enumerate() {
        let path = folder.join(&file.path);
        let written = files[..count].iter().map(|file| file.path.as_str()).collect::<Vec<_>>();
        let before = match written.as_slice() {
            [] => "no file was written".to_owned(),
            names => format!("written before, into {}: {}", folder.display(), names.join(", ")),
        };
        let mut made = made_anew(&path).map_err(|fault| unwritable(&path, &fault, &before))?;
        if let Err(fault) = made.write_all(file.text.as_bytes()).and_then(|()| made.flush()) {
            return Err(unwritable(&path, &fault, &format!("it is there, but not whole; {before}")));
        }
    }
    Ok(())
}

fn made_anew(path: &Path) -> io::Result<File> {
    if let Some(parent) = path.parent() {
        fs::create_dir_all(parent)?;
    }
    File::create_new(path)
}

fn unwritable(path: &Path, fault: &io::Error, state: &str) -> Diagnostic {
    let message = format!("can't write {}: {fault}", path.display());
    let help = format!("{state}; begin anew in a folder that can be written");
    Diagnostic::error(Code("init-unwritable"), message).help(help)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The look around finds nothing, and then the file appears: it stays what it is.
    #[test]
    fn a_file_that_appears_meanwhile_is_left_alone() {
        let folder = std::env::temp_dir().join(format!("lidladder-init-{}", std::process::id()));
        fs::create_dir_all(&folder).unwrap();
        let files = beginning(Beginning::Starter);
        assert!(leaves_all_alone(&folder, &files).is_ok());
        let theirs = folder.join(&files[1].path);
        fs::write(&theirs, "theirs").unwrap();
        let told = write(&folder, &files).unwrap_err();
        let [is, third] = [fs::read_to_string(&theirs).unwrap(), files[2].path.clone()];
        let is_third = folder.join(third).exists();
        fs::remove_dir_all(&folder).unwrap();
        assert_eq!((is.as_str(), is_third), ("theirs", false));
        assert_eq!(told.code, Code("init-unwritable"));
        assert!(told.message.contains(&files[1].path), "{}", told.message);
        assert!(told.help.unwrap().contains(&format!(": {};", files[0].path)));
    }
}
