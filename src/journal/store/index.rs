//! What is known to stand in a journal, so that nothing is written twice.

use super::lines::Lines;
use crate::journal::Record;
use std::collections::HashMap;
use std::collections::hash_map::Entry;
use std::fs::File;
use std::io::{self, BufReader, Read, Seek, SeekFrom};

/// How much of what stands before the place up to which a file was read is remembered, to see whether it is still
/// the same file.
const REMEMBERED: u64 = 512;

/// The records of a journal by customer and number, as far as the file was read.
#[derive(Debug, Default)]
pub(super) struct Index {
    /// Where the line of each begins.
    places: HashMap<(u64, u32), u64>,
    /// The highest number of a customer that any line names, bad lines included.
    highest: u64,
    /// All before it was read.
    read_to: u64,
    /// What stands right before it.
    before: Vec<u8>,
    /// The record behind it whose line has no end yet: whatever is written next may spoil it.
    last: Option<(u64, u32)>,
}

impl Index {
    /// Reads what was written since the last time; everything where the file is no longer the same.
    pub(super) fn catch_up(&mut self, mut file: &File) -> io::Result<()> {
        if file.metadata()?.len() < self.read_to || self.before != before(file, self.read_to)? {
            *self = Self::default();
        }
        if let Some(last) = self.last.take() {
            self.places.remove(&last);
        }
        file.seek(SeekFrom::Start(self.read_to))?;
        for line in Lines::from(self.read_to, BufReader::new(file)) {
            let line = line?;
            let customer = match line.record() {
                Ok(record) => {
                    let key = (record.customer, record.number);
                    if let Entry::Vacant(free) = self.places.entry(key) {
                        free.insert(line.place.0);
                        self.last = (!line.is_ended).then_some(key);
                    }
                    record.customer
                }
                Err(_) => line.customer().unwrap_or_default(),
            };
            self.highest = self.highest.max(customer);
            if line.is_ended {
                self.read_to = line.place.1;
            }
        }
        self.before = before(file, self.read_to)?;
        Ok(())
    }

    /// The record that has this customer and number.
    pub(super) fn find(&self, mut file: &File, customer: u64, number: u32) -> io::Result<Option<Record>> {
        let Some(place) = self.places.get(&(customer, number)) else { return Ok(None) };
        file.seek(SeekFrom::Start(*place))?;
        let line = Lines::from(*place, BufReader::new(file)).next().transpose()?;
        Ok(line.and_then(|line| line.record().ok()))
    }

    /// The highest number of a customer; 0 where there is none.
    pub(super) fn highest(&self) -> u64 {
        self.highest
    }
}

/// What stands right before a place.
fn before(mut file: &File, place: u64) -> io::Result<Vec<u8>> {
    let length = place.min(REMEMBERED);
    let mut bytes = Vec::new();
    file.seek(SeekFrom::Start(place - length))?;
    file.take(length).read_to_end(&mut bytes)?;
    Ok(bytes)
}
