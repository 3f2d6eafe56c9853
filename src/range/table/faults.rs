//! What may be wrong with a table, and where.

use crate::head::Measure;
use std::ops::Range;

/// So many faults are told, those of the first lines; the others are counted.
pub const MOST_TOLD: usize = 20;

/// Everything that is wrong with a table.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct TableFaults {
    /// The first of them, by line and column.
    pub told: Vec<TableFault>,
    /// How many more there are.
    pub more: u64,
}

/// Something that is wrong with a table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TableFault {
    /// What it is.
    pub kind: TableFaultKind,
    /// The number of its line, from 1.
    pub line: u64,
    /// The line, with a sign for each byte that isn't text.
    pub text: String,
    /// Where in the line.
    pub place: Range<usize>,
}

/// What may be wrong with a table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum TableFaultKind {
    /// The bytes don't come, for this reason of the system.
    Unreadable(String),
    /// There is nothing, or nothing but blank lines.
    Empty,
    /// It isn't UTF-8: every second byte is none.
    Encoding,
    /// Cells are separated by this.
    Separator(char),
    /// A column has another unit than mm.
    Unit(Measure),
    /// A measure has two columns.
    Twice(Measure),
    /// There is no column of circumferences.
    NoCircumference,
    /// A line has no end within the longest block.
    TooLong,
    /// A line has so many cells, where the first line has so many.
    Cells(usize, usize),
    /// The circumference is missing.
    Missing,
    /// A decimal comma.
    Comma(Measure),
    /// It isn't a number.
    NotANumber(Measure),
    /// No head has such a measure.
    NoHead(Measure),
}

impl TableFault {
    /// On a line, in these bytes of it.
    pub(super) fn new(kind: TableFaultKind, line: u64, bytes: &[u8], place: Range<usize>) -> Self {
        let [before, within, behind] = [&bytes[..place.start], &bytes[place.clone()], &bytes[place.end..]];
        let [before, within, behind] = [before, within, behind].map(String::from_utf8_lossy);
        let place = before.len()..before.len() + within.len();
        Self { kind, line, text: [before, within, behind].concat(), place }
    }
}

impl TableFaults {
    /// One more, behind those that are there already.
    pub(super) fn push(&mut self, fault: impl FnOnce() -> TableFault) {
        if self.told.len() < MOST_TOLD {
            self.told.push(fault());
        } else {
            self.more += 1;
        }
    }

    /// Those of two parts of a table.
    #[must_use]
    pub(super) fn and(mut self, other: Self) -> Self {
        self.told.extend(other.told);
        self.told.sort_by_key(|fault| (fault.line, fault.place.start));
        self.more += other.more + self.told.len().saturating_sub(MOST_TOLD) as u64;
        self.told.truncate(MOST_TOLD);
        self
    }
}

impl From<TableFault> for TableFaults {
    fn from(fault: TableFault) -> Self {
        Self { told: vec![fault], more: 0 }
    }
}
