//! The range: who is served.
