//! The smallest range that serves nearly everybody.
