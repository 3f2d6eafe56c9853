//! Real heads, counted by hand.
