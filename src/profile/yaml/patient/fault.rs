//! What ends a round of decoding.

use super::super::places::NodeId;
use serde::de::{self, Expected, Unexpected};
use std::fmt;

/// A problem that only the type could tell, at the value that it was reading.
#[derive(Debug)]
pub(super) struct Fault {
    pub(super) why: Why,
    pub(super) node: Option<NodeId>,
}

#[derive(Debug)]
pub(super) enum Why {
    MissingKey(&'static str),
    /// A key of a struct proved needed; the next round knows.
    Learned,
    /// What the type needs, in its own words.
    Needs(String),
    /// Why the type refuses the value, in its own words.
    Said(String),
    /// The type takes no filled in value.
    Stuck,
}

impl Fault {
    /// Says where it happened, unless a value further in did so already.
    pub(super) fn at(mut self, node: NodeId) -> Self {
        self.node.get_or_insert(node);
        self
    }

    pub(super) fn stuck() -> Self {
        Self { why: Why::Stuck, node: None }
    }
}

impl de::Error for Fault {
    fn custom<T: fmt::Display>(words: T) -> Self {
        Self { why: Why::Said(words.to_string()), node: None }
    }

    fn invalid_type(_: Unexpected<'_>, expected: &dyn Expected) -> Self {
        Self { why: Why::Needs(expected.to_string()), node: None }
    }

    fn invalid_value(_: Unexpected<'_>, expected: &dyn Expected) -> Self {
        Self { why: Why::Needs(expected.to_string()), node: None }
    }

    fn missing_field(field: &'static str) -> Self {
        Self { why: Why::MissingKey(field), node: None }
    }
}

impl std::error::Error for Fault {}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.why {
            Why::MissingKey(key) => write!(f, "the key `{key}` is missing"),
            Why::Needs(words) => write!(f, "{words} is needed"),
            Why::Said(words) => f.write_str(words),
            Why::Learned => f.write_str("a key is missing"),
            Why::Stuck => f.write_str("nothing can be filled in"),
        }
    }
}
