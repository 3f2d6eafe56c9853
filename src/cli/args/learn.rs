//! What was typed behind `learn`.

use super::TypedJournals;
use clap::{Args, ValueEnum};
use std::path::PathBuf;

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(in crate::cli) struct TypedLearn {
    #[command(flatten)]
    pub(in crate::cli) journals: TypedJournals,
    /// Which customers are kept apart to judge what was learned from the others
    #[arg(long, value_name = "WHICH", value_enum, default_value_t = TypedKept::Some)]
    pub(in crate::cli) kept_apart: TypedKept,
    /// The population that the shop's own begins with: an id of the profiles; the shop's without it
    #[arg(long, value_name = "ID")]
    pub(in crate::cli) population: Option<String>,
    /// Folder with the shop's own profiles instead of the built-in demo range
    #[arg(long, value_name = "DIR", env = "LIDLADDER_PROFILES")]
    pub(in crate::cli) profiles: Option<PathBuf>,
    /// Seed of the sampled heads: the same seed gives the same output, to the byte
    #[arg(long, value_name = "NUMBER", default_value_t = 1, allow_negative_numbers = true)]
    pub(in crate::cli) seed: u64,
    /// For people, for programs, as a page for a browser and for paper, or as changes of the profiles for the common patch tools
    #[arg(long, value_name = "FORMAT", value_enum, default_value_t = TypedLearnFormat::Text)]
    pub(in crate::cli) format: TypedLearnFormat,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum TypedLearnFormat {
    Text,
    Json,
    Html,
    Patch,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum TypedKept {
    /// One in so many, whenever they came
    Some,
    /// As many, those who came last
    Latest,
}

const EXAMPLES: &str = "\
Examples:
  lidladder learn journal.jsonl
  lidladder learn 'branches/*.jsonl' --profiles my-shop --kept-apart latest
  lidladder learn journal.jsonl --profiles my-shop --format patch > learned.patch
  patch -d my-shop -p1 < learned.patch";
