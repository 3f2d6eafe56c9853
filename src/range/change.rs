//! A range with models dropped, models added, or fewer pads.
