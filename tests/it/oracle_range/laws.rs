//! Laws of coverage.
