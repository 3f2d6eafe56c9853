//! What was tried, on whom, and what came of it: one record for each helmet that a customer put on.
//!
//! A record from and to a line of text, what a journal holds in all, and what is doubtful in it: all of that is pure.
//! Only `store` knows files: where the lines stand, and how they get there safely.

mod day;
mod doubt;
mod line;
mod listing;
pub(crate) mod parts;
mod record;
mod store;

pub use day::{BadDay, Day};
pub use doubt::{Doubt, Known, Stranger, Suspect, doubts};
pub(crate) use line::version;
pub use line::{BadLine, LONGEST_LINE, Line as TryBody, SCHEMA, from_line, line_schema, to_line};
pub use listing::{Ended, Listed, Listing, Totals, Wanted, minutes};
pub use record::{Head, Read, Record, Round, Wears};
pub use store::{
    Bad, Contents, Journal, Line, Lines, MOST_BAD, OpenSession, Outcome, StoreFault, Waiting, Writer, append_line,
    each_line, make_file, read,
};
