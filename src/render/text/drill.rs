//! Practice, page by page.

mod explained;
mod look;
mod paper;
mod sheet;
mod task;
mod wall;
mod words;

pub use explained::drill_explained;
pub use paper::drill_paper;
pub use sheet::drill_sheet;
pub use task::{drill_heard, drill_task};
pub use wall::{drill_begins, drill_help, drill_pads};

/// How a head from above is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DrillLook {
    /// Its outline.
    Drawn,
    /// In a word.
    Words,
}
