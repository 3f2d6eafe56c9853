//! `init`: a new profiles folder. The only place that writes files, and it overwrites none.

use super::args::TypedInit;
use super::{Ending, Output};
use crate::catalogue::{Beginning, NewFile, beginning};
use crate::diag::{Code, Diagnostic};
use crate::render::text;
use itertools::Itertools;
use std::fs::{self, File};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

pub(super) fn answer(typed: &TypedInit) -> Result<Output, Vec<Diagnostic>> {
    let kind = if typed.demo { Beginning::Demo } else { Beginning::Starter };
    let files = beginning(kind);
    leaves_all_alone(&typed.folder, &files)?;
    write(&typed.folder, &files)?;
    let text = text::init(&typed.folder.to_string_lossy(), kind, &files);
    Ok(Output { text, ending: Ending::Done })
}

/// Nothing is written while anything stands where a file of ours would.
fn leaves_all_alone(folder: &Path, files: &[NewFile]) -> Result<(), Vec<Diagnostic>> {
    let mut in_the_way = Vec::new();
    if is_there(folder)? && !folder.is_dir() {
        in_the_way.push(folder.to_owned());
    } else {
        for file in files {
            in_the_way.extend(in_the_way_of(file, folder)?);
        }
    }
    // A file in the place of a folder is in the way of all that would lie in it.
    in_the_way.dedup();
    if in_the_way.is_empty() {
        return Ok(());
    }
    let (is, it) = if in_the_way.len() == 1 { ("is", "it") } else { ("are", "them") };
    let names = in_the_way.iter().map(|path| path.display()).join(", ");
    let message = format!("{names} {is} there already, and nothing was written");
    let help = format!("name a new folder, or move {it} away: init never overwrites a file");
    Err(vec![Diagnostic::error(Code("init-in-the-way"), message).help(help)])
}

/// The file itself if it is there already, or what is there instead of the folder that it would lie in.
fn in_the_way_of(file: &NewFile, folder: &Path) -> Result<Option<PathBuf>, Vec<Diagnostic>> {
    let path = folder.join(&file.path);
    if let Some(parent) = path.parent().filter(|parent| *parent != folder)
        && is_there(parent)?
        && !parent.is_dir()
    {
        return Ok(Some(parent.to_owned()));
    }
    Ok(is_there(&path)?.then_some(path))
}

/// Whether anything has this name, a link that leads nowhere included.
fn is_there(path: &Path) -> Result<bool, Vec<Diagnostic>> {
    match path.symlink_metadata() {
        Ok(_) => Ok(true),
        Err(fault) if matches!(fault.kind(), ErrorKind::NotFound | ErrorKind::NotADirectory) => Ok(false),
        Err(fault) => Err(unwritable(path, &fault, "nothing was written")),
    }
}

/// Writes them one after another; each is made anew, so that not even a file that appears meanwhile is overwritten.
fn write(folder: &Path, files: &[NewFile]) -> Result<(), Vec<Diagnostic>> {
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

fn unwritable(path: &Path, fault: &io::Error, state: &str) -> Vec<Diagnostic> {
    let message = format!("can't write {}: {fault}", path.display());
    let help = format!("{state}; begin anew in a folder that can be written");
    vec![Diagnostic::error(Code("init-unwritable"), message).help(help)]
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
        let told = write(&folder, &files).unwrap_err().remove(0);
        let [is, third] = [fs::read_to_string(&theirs).unwrap(), files[2].path.clone()];
        let is_third = folder.join(third).exists();
        fs::remove_dir_all(&folder).unwrap();
        assert_eq!((is.as_str(), is_third), ("theirs", false));
        assert_eq!(told.code, Code("init-unwritable"));
        assert!(told.message.contains(&files[1].path), "{}", told.message);
        assert!(told.help.unwrap().contains(&format!(": {};", files[0].path)));
    }
}
