//! What was tried, on whom, and what came of it: one record for each helmet that a customer put on.
//!
//! Pure: a record from and to a line of text. Which file the lines stand in, and how they get there safely, is
//! another matter.

mod day;
mod line;
mod record;

pub use day::{BadDay, Day};
pub use line::{BadLine, LONGEST_LINE, SCHEMA, from_line, line_schema, to_line};
pub(crate) use line::{LinePads, LineRead, LineShape, LineWears, bad, minutes, name, probability, reason};
pub use record::{Head, Read, Record, Round, Wears};
