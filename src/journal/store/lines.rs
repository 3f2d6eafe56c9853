//! A file read line by line, whatever it holds.

use super::StoreFault;
use crate::journal::{BadLine, LONGEST_LINE, Record, from_line};
use std::fs::{self, File};
use std::io::{self, BufRead, BufReader};
use std::path::Path;

/// How many bad lines are kept; more are only counted.
pub const MOST_BAD: usize = 1000;

/// How many characters of a bad line are shown.
const MOST_SHOWN: usize = 60;

/// A byte order mark.
const MARK: &[u8] = b"\xef\xbb\xbf";

/// What is kept of a line: a little more than it may have, for what is taken off at both ends.
const MOST_KEPT: usize = LONGEST_LINE + MARK.len() + 2;

/// All that stands in a journal.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Contents {
    /// The records with the numbers of their lines, in the order of the file.
    pub records: Vec<(usize, Record)>,
    /// The first [`MOST_BAD`] lines that are no records.
    pub bad: Vec<Bad>,
    /// How many there are in all.
    pub bad_lines: usize,
}

/// A line that is no record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bad {
    /// Its number, from 1.
    pub line: usize,
    /// Why it is none.
    pub why: BadLine,
    /// How it begins.
    pub excerpt: String,
}

/// One line, without its end.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// Its number, from 1.
    pub number: usize,
    /// Where in the file it begins and, with its end, ends: bytes.
    pub place: (u64, u64),
    /// Whether there is a line break at its end. The last line of a file may have none.
    pub is_ended: bool,
    /// At most [`MOST_KEPT`] of its bytes.
    bytes: Vec<u8>,
}

/// The lines of a stream, without the empty ones. However long a line, little of it is held.
#[derive(Debug)]
pub struct Lines<R> {
    reader: R,
    number: usize,
    at: u64,
}

/// Reads a journal.
///
/// # Errors
///
/// Where the file can't be read.
pub fn read(path: &Path) -> Result<Contents, StoreFault> {
    let mut contents = Contents::default();
    each_line(path, |line| match line.record() {
        Ok(record) => contents.records.push((line.number, record)),
        Err(why) => {
            contents.bad_lines += 1;
            if contents.bad.len() < MOST_BAD {
                contents.bad.push(Bad { line: line.number, why, excerpt: line.excerpt() });
            }
        }
    })?;
    Ok(contents)
}

/// Hands over one line after the other, while nobody appends.
///
/// # Errors
///
/// Where the file can't be read.
pub fn each_line(path: &Path, mut take: impl FnMut(&Line)) -> Result<(), StoreFault> {
    be_file(path)?;
    let file = File::open(path).map_err(StoreFault::system("read", path))?;
    // Where a folder can't lock, a line may be looked at while it is written: it counts as cut off.
    let _: io::Result<()> = file.lock_shared();
    for line in Lines::new(BufReader::new(file)) {
        take(&line.map_err(StoreFault::system("read", path))?);
    }
    Ok(())
}

/// Makes sure that nothing but a file is opened: a pipe would be waited for, a device has no end.
pub(super) fn be_file(path: &Path) -> Result<(), StoreFault> {
    let what = match fs::metadata(path) {
        Ok(found) if found.is_dir() => "a folder",
        Ok(found) if !found.is_file() => "a pipe, a socket or a device",
        // What is not there is told by whoever opens it.
        Ok(_) | Err(_) => return Ok(()),
    };
    Err(StoreFault::NoFile { path: path.to_owned(), what })
}

impl<R: BufRead> Lines<R> {
    /// The lines of a stream from its start.
    pub fn new(reader: R) -> Self {
        Self { reader, number: 0, at: 0 }
    }

    /// The lines of a stream whose first byte is that of number `at` of a file.
    pub(super) fn from(at: u64, reader: R) -> Self {
        Self { reader, number: 0, at }
    }

    /// What the lines are read from.
    pub fn stream(&self) -> &R {
        &self.reader
    }

    /// The next line, be it empty.
    fn any(&mut self) -> io::Result<Option<Line>> {
        let start = self.at;
        let mut bytes = Vec::new();
        let mut is_ended = false;
        while !is_ended {
            let here = match self.reader.fill_buf() {
                Ok(here) => here,
                Err(fault) if fault.kind() == io::ErrorKind::Interrupted => continue,
                Err(fault) => return Err(fault),
            };
            if here.is_empty() {
                break;
            }
            let end = here.iter().position(|byte| *byte == b'\n');
            is_ended = end.is_some();
            let part = &here[..end.unwrap_or(here.len())];
            bytes.extend_from_slice(&part[..part.len().min(MOST_KEPT - bytes.len())]);
            let used = part.len() + usize::from(is_ended);
            self.at += used as u64;
            self.reader.consume(used);
        }
        if self.at == start {
            return Ok(None);
        }
        self.number += 1;
        if is_ended && bytes.ends_with(b"\r") {
            bytes.pop();
        }
        if start == 0 && bytes.starts_with(MARK) {
            bytes.drain(..MARK.len());
        }
        Ok(Some(Line { number: self.number, place: (start, self.at), is_ended, bytes }))
    }
}

impl<R: BufRead> Iterator for Lines<R> {
    type Item = io::Result<Line>;

    fn next(&mut self) -> Option<Self::Item> {
        loop {
            match self.any() {
                Ok(Some(line)) if line.bytes.trim_ascii().is_empty() => {}
                other => return other.transpose(),
            }
        }
    }
}

impl Line {
    /// The record that it holds.
    ///
    /// # Errors
    ///
    /// Why it holds none.
    pub fn record(&self) -> Result<Record, BadLine> {
        if self.bytes.len() > LONGEST_LINE {
            return Err(BadLine::TooLong);
        }
        let text = str::from_utf8(&self.bytes).map_err(|_| BadLine::NoRecord("not UTF-8".to_owned()))?;
        from_line(text)
    }

    /// How it begins.
    #[must_use]
    pub fn excerpt(&self) -> String {
        // A character has at most four bytes.
        let start = &self.bytes[..self.bytes.len().min(4 * MOST_SHOWN)];
        let text = String::from_utf8_lossy(start);
        let shown: String = text.chars().take(MOST_SHOWN).collect();
        if shown.len() < self.bytes.len() { shown + "…" } else { shown }
    }

    /// Its text; of a line that is too long, its start.
    #[must_use]
    pub fn text(&self) -> String {
        String::from_utf8_lossy(&self.bytes[..self.bytes.len().min(LONGEST_LINE)]).into_owned()
    }

    /// The number of the customer as far as it can be read, even where the line is no record.
    pub(super) fn customer(&self) -> Option<u64> {
        const KEY: &[u8] = b"\"customer\":";
        let at = self.bytes.windows(KEY.len()).position(|part| part == KEY)?;
        let rest = self.bytes[at + KEY.len()..].trim_ascii_start();
        let digits = rest.iter().take_while(|byte| byte.is_ascii_digit()).count();
        str::from_utf8(&rest[..digits]).ok()?.parse().ok()
    }
}
