//! A journal that nobody else writes to for the moment.

use super::index::Index;
use super::lines::be_file;
use super::{Outcome, StoreFault};
use crate::journal::{Record, to_line};
use std::collections::HashMap;
use std::ffi::OsString;
use std::fs::{self, File, OpenOptions};
use std::io::{self, ErrorKind, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

/// The lock ends when this is dropped.
pub(super) struct Locked {
    file: File,
    /// The way to the file itself, whatever links lead to it: all tills mean the same folder of sessions.
    path: PathBuf,
}

impl Locked {
    /// Opens a journal, or makes an empty one, and waits for the others.
    pub(super) fn open(path: &Path) -> Result<Self, StoreFault> {
        be_file(path)?;
        let file = OpenOptions::new().read(true).append(true).create(true).open(path);
        let file = file.map_err(StoreFault::system("open", path))?;
        file.lock().map_err(StoreFault::system("lock", path))?;
        let path = fs::canonicalize(path).map_err(StoreFault::system("find", path))?;
        Ok(Self { file, path })
    }

    /// The same, but `None` where there is no journal.
    pub(super) fn open_existing(path: &Path) -> Result<Option<Self>, StoreFault> {
        match fs::metadata(path) {
            Err(fault) if fault.kind() == ErrorKind::NotFound => Ok(None),
            _ => Self::open(path).map(Some),
        }
    }

    /// The highest number of a customer in the journal; 0 where there is none.
    pub(super) fn highest_customer(&self) -> Result<u64, StoreFault> {
        let mut index = Index::default();
        index.catch_up(&self.file).map_err(StoreFault::system("read", &self.path))?;
        Ok(index.highest())
    }

    /// Appends what is not there yet, and returns once it is on the disk.
    pub(super) fn append(&mut self, index: &mut Index, records: &[Record]) -> Result<Vec<Outcome>, StoreFault> {
        let path = &self.path;
        index.catch_up(&self.file).map_err(StoreFault::system("read", path))?;
        let (outcomes, text) = self.sorted_out(index, records).map_err(StoreFault::system("read", path))?;
        self.write(text)?;
        Ok(outcomes)
    }

    /// Writes lines behind all others, and returns once they are on the disk.
    pub(super) fn write(&mut self, mut text: String) -> Result<(), StoreFault> {
        let path = &self.path;
        if !text.is_empty() && self.is_cut_off().map_err(StoreFault::system("read", path))? {
            text.insert(0, '\n');
        }
        self.file.write_all(text.as_bytes()).map_err(StoreFault::system("write to", path))?;
        // Also where nothing was written: what is there already may be of somebody who ended before this.
        self.file.sync_data().map_err(StoreFault::system("sync", path))?;
        sync_folder_of(path)
    }

    /// What comes of each record, and the lines of those that are new.
    fn sorted_out(&self, index: &Index, records: &[Record]) -> io::Result<(Vec<Outcome>, String)> {
        let mut fresh: HashMap<(u64, u32), &Record> = HashMap::new();
        let mut text = String::new();
        let mut outcomes = Vec::new();
        for record in records {
            let key = (record.customer, record.number);
            let there = match fresh.get(&key) {
                Some(there) => Some((*there).clone()),
                None => index.find(&self.file, record.customer, record.number)?,
            };
            outcomes.push(match there {
                None => {
                    fresh.insert(key, record);
                    text.push_str(&to_line(record));
                    text.push('\n');
                    Outcome::Written
                }
                Some(there) if there == *record => Outcome::Known,
                Some(_) => Outcome::Clash,
            });
        }
        Ok((outcomes, text))
    }

    /// Whether the last line has no end.
    fn is_cut_off(&self) -> io::Result<bool> {
        let mut file = &self.file;
        if file.metadata()?.len() == 0 {
            return Ok(false);
        }
        let mut last = [0];
        file.seek(SeekFrom::End(-1))?;
        file.read_exact(&mut last)?;
        Ok(last != *b"\n")
    }

    /// The folder of the sessions that are open.
    pub(super) fn sessions(&self) -> PathBuf {
        let mut name = self.path.file_name().map(OsString::from).unwrap_or_default();
        name.push(".open");
        self.path.with_file_name(name)
    }
}

/// Sees to it that a file that was made or removed is so on the disk as well.
pub(super) fn sync_folder_of(path: &Path) -> Result<(), StoreFault> {
    // Elsewhere a folder can't be opened as a file; the system sees to it by itself.
    #[cfg(unix)]
    if let Some(folder) = path.parent() {
        File::open(folder).and_then(|folder| folder.sync_all()).map_err(StoreFault::system("sync", folder))?;
    }
    #[cfg(not(unix))]
    let _ = path;
    Ok(())
}
