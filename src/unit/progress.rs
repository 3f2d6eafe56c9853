//! How far a long computation is.

/// How far an audit is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Progress {
    /// Steps done.
    pub done: usize,
    /// Steps in all, as far as is known.
    pub of: usize,
}
