//! Boxes in a database.
