//! What was typed behind `range windows`.

use super::super::TypedFilter;
use clap::{Args, ValueEnum};
use std::path::PathBuf;

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(in crate::cli) struct TypedWindows {
    #[command(flatten)]
    pub(in crate::cli) filter: TypedFilter,
    /// What has rows of its own
    #[arg(long, value_name = "WHAT", value_enum, default_value_t = TypedPer::Size)]
    pub(in crate::cli) per: TypedPer,
    /// Folder with the shop's own profiles instead of the built-in demo range
    #[arg(long, value_name = "DIR", env = "LIDLADDER_PROFILES")]
    pub(in crate::cli) profiles: Option<PathBuf>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum TypedPer {
    /// Every size: its standard pads, and any pads on offer
    Size,
    /// Every pad set of every size
    Set,
}

const EXAMPLES: &str = "\
Examples:
  lidladder range windows > boxes.csv
  lidladder range windows --per set --type adventure > sets.csv";
