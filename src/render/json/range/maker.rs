//! The range: the sheet for a maker.
