//! Any file of lines that is only appended to, kept as a journal is.

use super::StoreFault;
use super::locked::Locked;
use std::path::Path;

/// Makes the file where it is missing, and sees to it that it can be appended to.
///
/// # Errors
///
/// Where it can't be opened or locked.
pub fn make_file(path: &Path) -> Result<(), StoreFault> {
    Locked::open(path).map(drop)
}

/// Appends a line with one write while nobody else does, and returns once it is on the disk. A line that was cut off before
/// is ended first, and stays.
///
/// # Errors
///
/// Where the file can't be opened, locked, written or synced.
pub fn append_line(path: &Path, line: &str) -> Result<(), StoreFault> {
    Locked::open(path)?.write(format!("{line}\n"))
}
