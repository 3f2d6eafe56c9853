//! A session with a customer at the counter, step by step.
//!
//! A session is its opening and a list of events, nothing else: what stands, what comes next and what the journal gets
//! follow from these. So a session that was left, or killed, goes on where it was, and going back a step is taking an
//! event away. Pure: no file, no terminal, no clock.

mod checks;
mod event;
mod next;
mod note;
mod opening;
mod out;
mod pads;
mod remarks;
mod session;
mod standing;
mod summary;
mod weigh;

pub use checks::{CHECKS, Check};
pub use event::{Event, OnHead, Tried};
pub use next::{Next, Now, Origin, Outlook, next, round_minutes};
pub use note::{BadNote, SESSION_SCHEMA, from_note, opening_note, read_opening, to_note};
pub use opening::{Opening, Unknown};
pub use remarks::{Before, Remarks, remarks};
pub use session::{Refused, Session};
pub use standing::{Ended, Standing};
pub use summary::{Fitted, Summary, summary};
pub use weigh::weigh;

#[cfg(test)]
mod tests;
