//! Why a journal could not be read or written.

use std::io;
use std::path::{Path, PathBuf};

/// Why a journal, or a session that is open, could not be read or written.
#[derive(Debug, thiserror::Error)]
pub enum StoreFault {
    /// The path leads to something else.
    #[error("{} is {what}, not a file", path.display())]
    NoFile {
        /// The path.
        path: PathBuf,
        /// What it leads to.
        what: &'static str,
    },
    /// The system said no.
    #[error("can't {step} {}: {fault}", path.display())]
    System {
        /// What was being done: `read`, `lock`.
        step: &'static str,
        /// To what.
        path: PathBuf,
        /// What the system said.
        fault: io::Error,
    },
    /// A session is open at another till.
    #[error("session {0} is open at another till")]
    InUse(u64),
    /// No such session is open.
    #[error("no session {0} is open")]
    NoSession(u64),
    /// Another record stands where one of this session belongs.
    #[error("the journal has another record as try {number} of customer {customer}")]
    Clash {
        /// Whose try.
        customer: u64,
        /// Which.
        number: u32,
    },
    /// The highest number is in use.
    #[error("{} names customer {highest}, and no number comes after it", path.display())]
    NoNumberLeft {
        /// The journal.
        path: PathBuf,
        /// The highest number in it.
        highest: u64,
    },
    /// A note with a line break in it.
    #[error("a note is one line")]
    NoteOfSeveralLines,
}

impl StoreFault {
    /// Makes one of what the system says.
    pub(super) fn system(step: &'static str, path: &Path) -> impl FnOnce(io::Error) -> Self {
        move |fault| Self::System { step, path: path.to_owned(), fault }
    }
}
