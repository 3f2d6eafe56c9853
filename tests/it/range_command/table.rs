//! `range`: table.
