//! A range of helmets over a whole population: who is served, by what, and who goes without.
//!
//! What a size fits is a box of heads, or a few ([`Room`]). A [`Shelf`] of helmets is asked about every head at once
//! ([`Index`]), and what is kept of millions of heads is how many there are for each pattern of helmets ([`Tally`]).

mod change;
mod count;
mod design;
mod gaps;
mod index;
mod keep;
mod kept;
mod maker;
mod map;
mod room;
mod shelf;
mod source;
mod spread;
mod stock;
mod table;
mod tally;
mod windows;

pub use count::{Counted, count, tally};
pub use index::Index;
pub use kept::KEPT;
pub use map::{COLUMNS, Cell, Map, ROWS};
pub use room::{Clearance, Pads, Room, Span};
pub use shelf::{Column, Shelf, World, taken};
pub use source::{CHUNK, Chunk, Drawn, Lot, Source};
pub use spread::{Spread, WORLD_HEADS, WORLDS, spreads};
pub use table::{MOST_TOLD, Piece, Table, TableFault, TableFaultKind, TableFaults};
pub use tally::{Change, ColumnSet, Columns, Pattern, Tally, share};
pub use windows::{Window, WindowPads, set_windows, size_windows};
