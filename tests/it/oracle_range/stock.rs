//! Stock against tables and textbooks.
