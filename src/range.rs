//! A range of helmets over a whole population: who is served, by what, and who goes without.
//!
//! What a size fits is a box of heads, or a few ([`Room`]). A [`Shelf`] of helmets is asked about every head at once
//! ([`Index`]), and what is kept of millions of heads is how many there are for each pattern of helmets ([`Tally`]).

mod answers;
mod best;
mod change;
mod count;
mod customers;
mod design;
mod gaps;
mod index;
mod keep;
mod kept;
mod lacking;
mod ladder;
mod maker;
mod map;
mod prices;
mod region;
mod room;
mod served;
mod shelf;
mod source;
mod spread;
pub mod stock;
mod table;
mod tally;
mod wear;
mod windows;

pub use answers::Answers;
pub use best::best;
pub use change::{Alteration, Changed, Effect, Effects, Group, LeftOut, What, WhatIf, like, without_pads};
pub use count::{Counted, count, tally};
pub use customers::Customers;
pub use design::{Blueprint, Design, Designs, Lead, Part, Rung, design};
pub use gaps::{Gap, Gaps, Nearest, gaps};
pub use index::Index;
pub use keep::{Best, Cover, Fewer, FewerWanted, KEEP_STEPS, Subset, Worth, keep};
pub use kept::KEPT;
pub use maker::{Complaint, Complaints, Gain, MakerSheet, Missing, PackUse, Pair, SheetLine, complaints, maker_sheet};
pub use map::{COLUMNS, Cell, Map, ROWS};
pub use region::Region;
pub use room::{Clearance, Pads, Room, Span};
pub use served::{Alone, Figure, Own, Served, served};
pub use shelf::{Column, Shelf, World, taken};
pub use source::{CHUNK, Chunk, Drawn, Lot, Source};
pub use spread::{Spread, WORLD_HEADS, WORLDS, spreads};
pub use table::{MOST_TOLD, Piece, Table, TableFault, TableFaultKind, TableFaults};
pub use tally::{Change, ColumnSet, Columns, Pattern, Tally, share};
pub use windows::{Window, WindowPads, set_windows, size_windows};
