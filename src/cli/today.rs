//! Which day it is.

use crate::journal::Day;

/// Today, by the machine's calendar.
pub(super) fn today() -> Day {
    jiff::ZonedDateTime::now().date().into()
}
