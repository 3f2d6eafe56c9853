//! Tables, the same on every kind of page.

use super::text::percent;

/// A table. The first cell of each row names the row.
pub(super) struct Table {
    pub(super) columns: Vec<Column>,
    pub(super) rows: Vec<Vec<Cell>>,
}

/// The head of a column.
pub(super) struct Column {
    pub(super) name: String,
    pub(super) kind: ColumnKind,
}

/// What stands in a column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum ColumnKind {
    Words,
    Numbers,
}

/// A cell of a table.
pub(super) struct Cell {
    pub(super) text: String,
    /// The share that the text tells, for pages that have colours.
    pub(super) share: Option<f64>,
}

impl Table {
    /// A table whose rows are texts.
    pub(super) fn plain(columns: Vec<Column>, rows: impl IntoIterator<Item = Vec<String>>) -> Self {
        Self { columns, rows: rows.into_iter().map(|row| row.into_iter().map(Cell::from).collect()).collect() }
    }
}

impl Column {
    pub(super) fn words(name: impl Into<String>) -> Self {
        Self { name: name.into(), kind: ColumnKind::Words }
    }

    pub(super) fn numbers(name: impl Into<String>) -> Self {
        Self { name: name.into(), kind: ColumnKind::Numbers }
    }
}

impl Cell {
    /// A cell that tells a share, in its own words.
    pub(super) fn shaded(text: String, share: f64) -> Self {
        Self { text, share: Some(share) }
    }

    /// A cell that tells a share in whole percents.
    pub(super) fn percent(share: f64) -> Self {
        Self::shaded(percent(share), share)
    }
}

impl From<String> for Cell {
    fn from(text: String) -> Self {
        Self { text, share: None }
    }
}
