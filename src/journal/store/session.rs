//! Sessions with customers who are still there: what was said so far, kept so that it survives the end of the program.

use super::index::Index;
use super::locked::{Locked, sync_folder_of};
use super::{Journal, Outcome, StoreFault};
use crate::journal::Record;
use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::{self, BufRead, BufReader, ErrorKind, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

/// How many bytes of notes are read; a session of a whole day has some thousands.
const MOST_NOTES: u64 = 16 * 1024 * 1024;

/// A session that this till holds. Whoever drops it leaves it open, to be resumed.
#[derive(Debug)]
pub struct OpenSession {
    /// The number of the customer, which no other session and no record has.
    pub customer: u64,
    journal: PathBuf,
    path: PathBuf,
    file: File,
    /// Where the last note ends that is on the disk.
    end: u64,
}

/// A session that somebody opened and nobody has ended yet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Waiting {
    /// The number of the customer.
    pub customer: u64,
    /// The first note; `None` where there is none, or it can't be read now.
    pub first_note: Option<String>,
    /// Whether a till holds it now.
    pub is_held: bool,
}

impl Journal {
    /// Opens a session for the next customer, with these notes in it.
    ///
    /// The number is one more than the highest of any record, of any bad line that still shows one, and of any open
    /// session. Reads the whole journal.
    ///
    /// # Errors
    ///
    /// Where the journal or the session's file can't be opened, locked or written, or a note is more than a line.
    pub fn open_session(&self, notes: &[&str]) -> Result<OpenSession, StoreFault> {
        let locked = Locked::open(self.path())?;
        let folder = locked.sessions();
        make_folder(&folder)?;
        let highest = numbers(&folder)?.into_iter().fold(locked.highest_customer()?, u64::max);
        let none_left = || StoreFault::NoNumberLeft { path: self.path().to_owned(), highest };
        let customer = highest.checked_add(1).ok_or_else(none_left)?;
        let path = path_of(&folder, customer);
        let file = OpenOptions::new().read(true).write(true).create_new(true).open(&path);
        let file = file.map_err(StoreFault::system("make", &path))?;
        let mut session = self.hold(customer, path, file)?;
        session.write(notes)?;
        sync_folder_of(&session.path)?;
        Ok(session)
    }

    /// Takes up a session again: the session, and all notes that were acknowledged. A note that was cut off, and so
    /// never acknowledged, is taken away.
    ///
    /// # Errors
    ///
    /// Where no such session is open, another till holds it, or its file can't be read or written.
    pub fn resume(&self, customer: u64) -> Result<(OpenSession, Vec<String>), StoreFault> {
        let locked = Locked::open_existing(self.path())?.ok_or(StoreFault::NoSession(customer))?;
        let path = path_of(&locked.sessions(), customer);
        let file = match OpenOptions::new().read(true).write(true).open(&path) {
            Err(fault) if fault.kind() == ErrorKind::NotFound => return Err(StoreFault::NoSession(customer)),
            other => other.map_err(StoreFault::system("open", &path))?,
        };
        let mut session = self.hold(customer, path, file)?;
        let notes = session.read_notes().map_err(StoreFault::system("read", &session.path))?;
        session.cut_back().map_err(StoreFault::system("write to", &session.path))?;
        Ok((session, notes))
    }

    /// The sessions that are open, in the order of their numbers.
    ///
    /// # Errors
    ///
    /// Where the journal can't be locked or its folder of sessions can't be listed.
    pub fn open_sessions(&self) -> Result<Vec<Waiting>, StoreFault> {
        let Some(locked) = Locked::open_existing(self.path())? else { return Ok(Vec::new()) };
        let folder = locked.sessions();
        let waiting = numbers(&folder)?.into_iter().map(|customer| {
            let file = File::open(path_of(&folder, customer));
            let is_held = file.as_ref().is_ok_and(|file| matches!(file.try_lock(), Err(TryLockError::WouldBlock)));
            let first_note = file.ok().and_then(|file| first_note(file).ok().flatten());
            Waiting { customer, first_note, is_held }
        });
        Ok(waiting.collect())
    }

    /// Makes the session this till's own.
    fn hold(&self, customer: u64, path: PathBuf, file: File) -> Result<OpenSession, StoreFault> {
        match file.try_lock() {
            Ok(()) => Ok(OpenSession { customer, journal: self.path().to_owned(), path, file, end: 0 }),
            Err(TryLockError::WouldBlock) => Err(StoreFault::InUse(customer)),
            Err(TryLockError::Error(fault)) => Err(StoreFault::system("lock", &path)(fault)),
        }
    }
}

impl OpenSession {
    /// Writes down one line; it is on the disk when this returns. What it says is nobody's business here.
    ///
    /// # Errors
    ///
    /// Where it holds a line break, or can't be written: it is then as if it had never been noted, and can be again.
    pub fn note(&mut self, line: &str) -> Result<(), StoreFault> {
        self.write(&[line])
    }

    /// Ends the session with these records: appends those that are missing, then takes the session away. If it is cut
    /// off anywhere in between, the session is still open, and resuming and finishing it does the rest.
    ///
    /// # Errors
    ///
    /// Where the journal can't be written, or another record has the place of one of these. The session stays open.
    pub fn finish(self, records: &[Record]) -> Result<(), StoreFault> {
        let mut locked = Locked::open(&self.journal)?;
        let outcomes = locked.append(&mut Index::default(), records)?;
        if let Some((record, _)) = records.iter().zip(outcomes).find(|(_, outcome)| *outcome == Outcome::Clash) {
            return Err(StoreFault::Clash { customer: record.customer, number: record.number });
        }
        self.remove()
    }

    /// Ends the session without a trace.
    ///
    /// # Errors
    ///
    /// Where its file can't be removed: the session stays open.
    pub fn abandon(self) -> Result<(), StoreFault> {
        let _locked = Locked::open(&self.journal)?;
        self.remove()
    }

    /// Nobody can resume it meanwhile: that takes the journal's lock, which the caller has.
    fn remove(self) -> Result<(), StoreFault> {
        let Self { path, file, .. } = self;
        // Some systems keep a file until nobody has it open.
        drop(file);
        fs::remove_file(&path).map_err(StoreFault::system("remove", &path))?;
        sync_folder_of(&path)
    }

    fn write(&mut self, notes: &[&str]) -> Result<(), StoreFault> {
        if notes.iter().any(|note| note.contains('\n')) {
            return Err(StoreFault::NoteOfSeveralLines);
        }
        let text: String = notes.iter().flat_map(|note| [note, "\n"]).collect();
        self.cut_back().map_err(StoreFault::system("write to", &self.path))?;
        let written = self.file.write_all(text.as_bytes()).and_then(|()| self.file.sync_data());
        written.map_err(StoreFault::system("write to", &self.path))?;
        self.end += text.len() as u64;
        Ok(())
    }

    /// All whole notes. Whatever stands behind the last of them was cut off.
    fn read_notes(&mut self) -> io::Result<Vec<String>> {
        self.file.seek(SeekFrom::Start(0))?;
        let mut bytes = Vec::new();
        (&self.file).take(MOST_NOTES + 1).read_to_end(&mut bytes)?;
        if bytes.len() as u64 > MOST_NOTES {
            return Err(io::Error::other(format!("it holds more than {MOST_NOTES} bytes")));
        }
        let whole = bytes.iter().rposition(|byte| *byte == b'\n').map_or(0, |at| at + 1);
        let text = str::from_utf8(&bytes[..whole]).map_err(io::Error::other)?;
        self.end = whole as u64;
        Ok(text.split_terminator('\n').map(str::to_owned).collect())
    }

    /// Takes away what was cut off, and goes to where the next note begins.
    fn cut_back(&mut self) -> io::Result<()> {
        if self.file.metadata()?.len() > self.end {
            self.file.set_len(self.end)?;
        }
        self.file.seek(SeekFrom::Start(self.end)).map(drop)
    }
}

fn first_note(file: File) -> io::Result<Option<String>> {
    let mut note = String::new();
    BufReader::new(file.take(MOST_NOTES)).read_line(&mut note)?;
    Ok(note.strip_suffix('\n').map(str::to_owned))
}

fn make_folder(folder: &Path) -> Result<(), StoreFault> {
    match fs::create_dir(folder) {
        Ok(()) => sync_folder_of(folder),
        Err(fault) if fault.kind() == ErrorKind::AlreadyExists => Ok(()),
        Err(fault) => Err(StoreFault::system("make", folder)(fault)),
    }
}

fn path_of(folder: &Path, customer: u64) -> PathBuf {
    folder.join(format!("{customer}.jsonl"))
}

/// The numbers of all sessions that are open, in order. What else lies in the folder is left alone.
fn numbers(folder: &Path) -> Result<Vec<u64>, StoreFault> {
    let entries = match fs::read_dir(folder) {
        Err(fault) if fault.kind() == ErrorKind::NotFound => return Ok(Vec::new()),
        other => other.map_err(StoreFault::system("list", folder))?,
    };
    let mut numbers = Vec::new();
    for entry in entries {
        let name = entry.map_err(StoreFault::system("list", folder))?.file_name();
        let number = name.to_str().and_then(|name| name.strip_suffix(".jsonl")).and_then(|stem| stem.parse().ok());
        // Nothing but what `path_of` makes: no `+7`, no `007`.
        numbers.extend(number.filter(|number: &u64| path_of(folder, *number).file_name() == Some(&name)));
    }
    numbers.sort_unstable();
    Ok(numbers)
}
