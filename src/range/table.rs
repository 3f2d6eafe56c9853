//! Heads from a table: comma-separated values (RFC 4180), a head a line, its measures in mm.
//!
//! The table is read in blocks that end where a line does, and a block becomes heads on any thread. So a table of any
//! length takes the memory of a few blocks.

mod blocks;
mod columns;
mod faults;
mod fill;
mod quotes;
mod rows;

pub use faults::{MOST_TOLD, TableFault, TableFaultKind, TableFaults};

use super::source::{Chunk, Source};
use crate::head::Population;
use crate::unit::Progress;
use blocks::{Block, Blocks};
use columns::{Columns, columns};
use std::io::Read;
use std::sync::Arc;

/// A table of heads, as it comes in.
///
/// The first line names the columns: `circumference`, `length`, `breadth`, `face-width`, in any order, with or without
/// `_mm` behind them; other columns are left alone. Only the circumference has to be there. What a head lacks is drawn
/// from the population's heads that have the measures which it has: once, by the seed and the place of its line.
#[derive(Debug)]
pub struct Table<R> {
    blocks: Blocks<R>,
    meaning: Arc<Meaning>,
    /// Bytes in all, as far as is known.
    length: Option<u64>,
}

/// What the lines of a table mean.
#[derive(Debug)]
struct Meaning {
    columns: Columns,
    /// The number of the line behind the names of the columns: a head on it would be head 0.
    first_line: u64,
    population: Population,
    seed: u64,
}

/// Whole lines of a table.
#[derive(Debug)]
pub struct Piece {
    block: Block,
    meaning: Arc<Meaning>,
}

impl<R: Read> Table<R> {
    /// Begins to read a table: its first lines, and what the columns are. `length` is how many bytes will come, where
    /// that is known.
    pub fn open(bytes: R, length: Option<u64>, population: &Population, seed: u64) -> Result<Self, TableFaults> {
        let mut blocks = Blocks::of(bytes);
        let columns = columns(&mut blocks)?;
        let first_line = blocks.line();
        let meaning = Arc::new(Meaning { columns, first_line, population: population.clone(), seed });
        Ok(Self { blocks, meaning, length })
    }

    /// Names of columns that aren't measures of a head.
    #[must_use]
    pub fn other_columns(&self) -> &[String] {
        &self.meaning.columns.others
    }
}

impl<R: Read + Send> Source for Table<R> {
    type Piece = Piece;
    type Fault = TableFaults;

    fn next(&mut self) -> Option<Result<Piece, TableFaults>> {
        let block = self.blocks.next()?;
        Some(block.map(|block| Piece { block, meaning: Arc::clone(&self.meaning) }).map_err(TableFaults::from))
    }

    fn heads(piece: Piece) -> Result<Chunk, TableFaults> {
        rows::heads(&piece.block, &piece.meaning)
    }

    fn both(one: TableFaults, other: TableFaults) -> TableFaults {
        one.and(other)
    }

    fn progress(&self) -> Progress {
        let steps = |bytes: u64| usize::try_from(bytes).unwrap_or(usize::MAX);
        Progress { done: steps(self.blocks.taken()), of: self.length.map_or(0, steps) }
    }
}
