//! Profiles.
pub mod raw;
