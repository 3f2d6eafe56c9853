//! `range`: windows.
