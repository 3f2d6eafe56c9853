//! `--output`: a file in place of standard output. What stands there is replaced only where lidladder wrote it.

use super::Output;
use super::args::TypedOutput;
use super::terminal::plain;
use crate::diag::{Code, Diagnostic};
use crate::render::Mark;
use itertools::Itertools;
use std::fs::{self, File};
use std::io::{self, ErrorKind, Read, Write};
use std::path::{Path, PathBuf};

/// Where an output goes.
pub(super) enum Place<'t> {
    StandardOutput,
    File(&'t Path),
}

impl<'t> Place<'t> {
    /// The place that was typed. What speaks against it is told before anything is computed.
    pub(super) fn of(typed: Option<&'t TypedOutput>) -> Result<Self, Vec<Diagnostic>> {
        let Some(typed) = typed.filter(|typed| typed.file.as_os_str() != "-") else { return Ok(Self::StandardOutput) };
        agrees(typed)?;
        match standing(&typed.file)? {
            Standing::Theirs => Err(exists(&typed.file)),
            Standing::Nothing | Standing::Ours(_) => Ok(Self::File(&typed.file)),
        }
    }

    /// Writes a file's output, and returns what is left to be shown.
    pub(super) fn take(self, output: Output) -> Result<Output, Vec<Diagnostic>> {
        let Self::File(path) = self else { return Ok(output) };
        let text = plain(&output.text);
        match standing(path)? {
            Standing::Ours(there) if Mark::of(&text) != Some(there) => return Err(exists(path)),
            Standing::Theirs => return Err(exists(path)),
            Standing::Nothing | Standing::Ours(_) => {}
        }
        write(path, &text).map_err(|fault| unwritable(path, &fault.to_string()))?;
        Ok(Output { text: String::new(), ending: output.ending })
    }
}

/// Whether the name of the file goes with the format.
fn agrees(typed: &TypedOutput) -> Result<(), Vec<Diagnostic>> {
    let TypedOutput { file, ending, format, formats } = typed;
    let (Some(ending), Some(format)) = (ending, format) else { return Ok(()) };
    if ending == format {
        return Ok(());
    }
    let message = format!("{} is called like {ending}, and the output is {format}", file.display());
    let help = if formats.iter().any(|known| known == ending) {
        format!("leave --format out, or say --format {ending}, or give the file another name")
    } else {
        format!("this command has {}: give the file another name", formats.iter().join(", "))
    };
    Err(vec![Diagnostic::error(Code("output-format"), message).help(help)])
}

/// What stands in the place of a file.
enum Standing {
    Nothing,
    /// Something that lidladder wrote.
    Ours(Mark),
    /// Anything else.
    Theirs,
}

fn standing(path: &Path) -> Result<Standing, Vec<Diagnostic>> {
    match path.symlink_metadata() {
        Ok(_) => {}
        Err(fault) if fault.kind() == ErrorKind::NotFound => return nothing(path),
        Err(fault) => return Err(unwritable(path, &fault.to_string())),
    }
    // A link that leads nowhere, and what nobody may read: lidladder's or not, it can't be told.
    if !path.is_file() {
        return Ok(Standing::Theirs);
    }
    Ok(beginning(path).ok().and_then(|text| Mark::of(&text)).map_or(Standing::Theirs, Standing::Ours))
}

/// That a new file can be made.
fn nothing(path: &Path) -> Result<Standing, Vec<Diagnostic>> {
    if path.file_name().is_none() {
        return Err(unwritable(path, "this is no name of a file"));
    }
    if !folder(path).is_dir() {
        return Err(unwritable(path, &format!("there is no folder {}", folder(path).display())));
    }
    Ok(Standing::Nothing)
}

fn folder(path: &Path) -> &Path {
    path.parent().filter(|parent| !parent.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

/// As much of a file as shows who wrote it.
fn beginning(path: &Path) -> io::Result<String> {
    const ENOUGH: u64 = 64 * 1024;
    let mut bytes = Vec::new();
    File::open(path)?.take(ENOUGH).read_to_end(&mut bytes)?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

/// Writes beside the file and renames, so that what was there stays until the new one is whole.
fn write(path: &Path, text: &str) -> io::Result<()> {
    // Behind a link, the file that it leads to is the one to replace.
    let path = path.canonicalize().unwrap_or_else(|_| path.to_owned());
    let before = path.metadata().ok().map(|metadata| metadata.permissions());
    if before.as_ref().is_some_and(fs::Permissions::readonly) {
        return Err(io::Error::new(ErrorKind::PermissionDenied, "it is protected against writing"));
    }
    let (draft, mut file) = draft(folder(&path))?;
    let written = file.write_all(text.as_bytes()).and_then(|()| file.sync_all());
    let permitted = written.and_then(|()| before.map_or(Ok(()), |before| file.set_permissions(before)));
    drop(file);
    permitted.and_then(|()| fs::rename(&draft, &path)).inspect_err(|_| {
        // The first fault is the one to tell.
        let _ = fs::remove_file(&draft);
    })
}

/// A new file under a name that nothing has.
fn draft(folder: &Path) -> io::Result<(PathBuf, File)> {
    let mut number = 0;
    loop {
        let path = folder.join(format!(".lidladder-{number}.part"));
        match File::create_new(&path) {
            Ok(file) => return Ok((path, file)),
            Err(fault) if fault.kind() == ErrorKind::AlreadyExists => number += 1,
            Err(fault) => return Err(fault),
        }
    }
}

fn exists(path: &Path) -> Vec<Diagnostic> {
    let what =
        if path.is_dir() { "a folder" } else { "there already, and nothing that lidladder wrote in this format" };
    let message = format!("{} is {what}: it was left alone", path.display());
    let help = "take it away, name another file, or write `> FILE` instead of --output, if you are sure";
    vec![Diagnostic::error(Code("output-exists"), message).help(help)]
}

fn unwritable(path: &Path, why: &str) -> Vec<Diagnostic> {
    let message = format!("can't write {}: {why}", path.display());
    let help = "what was there before is as it was: see to the folder, to who may write there and to the room on the \
                disk, or name another file";
    vec![Diagnostic::error(Code("output-unwritable"), message).help(help)]
}
