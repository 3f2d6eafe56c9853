//! `range`: change.
