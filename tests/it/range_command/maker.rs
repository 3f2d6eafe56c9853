//! `range`: maker.
