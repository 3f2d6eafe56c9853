//! Customers and helmets by circumference and shape index.

use super::tally::real;
use crate::head::{Particles, shape_index};
use itertools::Itertools;
use std::ops::Range;

/// Heads on a grid: rows of one centimetre of circumference, columns of one point of the shape index. What lies beyond the
/// grid counts in its outermost cells.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Map {
    cells: Vec<Cell>,
}

/// The heads of a cell.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Cell {
    /// How many there are.
    pub heads: u64,
    /// How many of them some helmet fits with its standard pads.
    pub standard: u64,
    /// How many of them some helmet fits with some pads on offer.
    pub on_offer: u64,
    /// How many helmets fit them with some pads on offer, added up.
    pub helmets: u64,
}

/// Circumferences of the rows, cm: each from one whole centimetre up to the next.
pub const ROWS: Range<u8> = 48..68;

/// Shape indices of the columns: each from one whole point up to the next.
pub const COLUMNS: Range<u8> = 64..96;

impl Default for Map {
    fn default() -> Self {
        Self { cells: vec![Cell::default(); ROWS.len() * COLUMNS.len()] }
    }
}

impl Cell {
    /// How many helmets fit one of its heads on average; of no heads, 0.
    #[must_use]
    pub fn mean_helmets(self) -> f64 {
        real(self.helmets) / real(self.heads.max(1))
    }
}

impl Map {
    /// How many heads there are.
    #[must_use]
    pub fn heads(&self) -> u64 {
        self.cells.iter().map(|cell| cell.heads).sum()
    }

    /// Every cell with where it begins: circumference in cm, shape index.
    pub fn cells(&self) -> impl Iterator<Item = (u8, u8, Cell)> + '_ {
        ROWS.cartesian_product(COLUMNS).zip(&self.cells).map(|((row, column), cell)| (row, column, *cell))
    }

    /// The rows and columns between the first and the last in which at least one in 2,000 heads lies.
    #[must_use]
    pub fn occupied(&self) -> (Range<u8>, Range<u8>) {
        let is_seen = |heads: u64| heads > 0 && heads >= self.heads() / 2000;
        let row = |row: &u8| is_seen(COLUMNS.map(|column| self.cell(*row, column).heads).sum());
        let column = |column: &u8| is_seen(ROWS.map(|row| self.cell(row, *column).heads).sum());
        let between = |seen: Vec<u8>| seen.first().map_or(0..0, |first| *first..seen[seen.len() - 1] + 1);
        (between(ROWS.filter(row).collect()), between(COLUMNS.filter(column).collect()))
    }

    /// The cell that begins at so many cm and so many points of the index.
    #[must_use]
    pub fn cell(&self, circumference: u8, index: u8) -> Cell {
        self.cells[place(f64::from(circumference) * 10.0, f64::from(index))]
    }

    /// Adds heads with what fits them: the number of helmets with the pads on offer, and with the standard pads.
    pub(super) fn add(&mut self, heads: &Particles, helmets: impl Iterator<Item = (usize, usize)>) {
        for (head, (on_offer, standard)) in helmets.enumerate() {
            let index = shape_index(heads.length[head], heads.breadth[head]);
            let cell = &mut self.cells[place(heads.circumference[head], index)];
            cell.heads += 1;
            cell.standard += u64::from(standard > 0);
            cell.on_offer += u64::from(on_offer > 0);
            cell.helmets += on_offer as u64;
        }
    }

    /// Adds the heads of another map.
    pub(super) fn merge(&mut self, other: &Self) {
        for (cell, other) in self.cells.iter_mut().zip(&other.cells) {
            cell.heads += other.heads;
            cell.standard += other.standard;
            cell.on_offer += other.on_offer;
            cell.helmets += other.helmets;
        }
    }
}

fn place(circumference: f64, index: f64) -> usize {
    let row = step(circumference / 10.0, ROWS);
    row * COLUMNS.len() + step(index, COLUMNS)
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "what is too small ends in the first step")]
fn step(value: f64, steps: Range<u8>) -> usize {
    ((value - f64::from(steps.start)) as usize).min(steps.len() - 1)
}
