//! The journal as a file: JSON Lines that are only ever appended to, by several tills at the same time.
//!
//! Not pure, and the only part of the journal that isn't: here is where files are read, written and locked. A record
//! is *acknowledged* when the call that took it returns; from then on neither the end of the program nor that of the
//! power takes it away, as far as the disk keeps its word. What was not acknowledged may be there whole, in part or
//! not at all: handing it in once more is always right, because a record that is there already is not written twice.
//!
//! Whoever wants two locks takes that of the journal first, then that of a session, which is never waited for.

mod fault;
mod index;
mod lines;
mod locked;
mod plain;
mod session;

pub use fault::StoreFault;
pub use lines::{Bad, Contents, Line, Lines, MOST_BAD, each_line, read};
pub use plain::{append_line, make_file};
pub use session::{OpenSession, Waiting};

use super::Record;
use index::Index;
use locked::Locked;
use std::path::{Path, PathBuf};

/// A journal, whether its file is there yet or not.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Journal {
    path: PathBuf,
}

/// Whoever appends to a journal more than once: what it has read of the file it doesn't read again.
#[derive(Debug)]
pub struct Writer {
    path: PathBuf,
    index: Index,
}

/// What came of a record that was handed in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// It was written.
    Written,
    /// The same record was there already.
    Known,
    /// Another record has its customer and number; this one was not written.
    Clash,
}

impl Journal {
    /// The journal in this file.
    #[must_use]
    pub fn at(path: impl Into<PathBuf>) -> Self {
        Self { path: path.into() }
    }

    /// Where it stands.
    #[must_use]
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Somebody who appends to it. Nothing is opened yet.
    #[must_use]
    pub fn writer(&self) -> Writer {
        Writer { path: self.path.clone(), index: Index::default() }
    }

    /// Appends records as [`Writer::append`] does. Each call reads the whole journal for what is there already.
    ///
    /// # Errors
    ///
    /// As for [`Writer::append`].
    pub fn append(&self, records: &[Record]) -> Result<Vec<Outcome>, StoreFault> {
        self.writer().append(records)
    }

    /// All that stands in it.
    ///
    /// # Errors
    ///
    /// Where the file can't be read.
    pub fn read(&self) -> Result<Contents, StoreFault> {
        read(&self.path)
    }
}

impl Writer {
    /// Appends what is not there yet with one write, and returns, record by record, what came of it, once it is on the
    /// disk. A line that was cut off before is ended first, and stays.
    ///
    /// The first call reads the whole journal, each later one what others have written since.
    ///
    /// # Errors
    ///
    /// Where the file can't be opened, locked, written or synced. Nothing is acknowledged then, and what was written
    /// in part is ended by the next call.
    pub fn append(&mut self, records: &[Record]) -> Result<Vec<Outcome>, StoreFault> {
        Locked::open(&self.path)?.append(&mut self.index, records)
    }
}

#[cfg(test)]
mod tests;
