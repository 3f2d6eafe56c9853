//! Heads from a table.
