//! What was typed behind `fallbacks`.

use clap::{Args, ValueEnum};
use std::path::PathBuf;

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES, args_conflicts_with_subcommands = true)]
pub(in crate::cli) struct TypedFallbacks {
    #[command(flatten)]
    pub(in crate::cli) shown: TypedShown,
}

#[derive(Debug, Args)]
pub(in crate::cli) struct TypedShown {
    /// Only the rules from this model, and those that lead to it: its id, as in the profiles
    #[arg(long, value_name = "MODEL")]
    pub(in crate::cli) from: Option<String>,
    /// Only the rules for this reason; with --from, the ways for the first reason, from there for the second, and so on
    #[arg(long = "if", value_name = "REASON")]
    pub(in crate::cli) reasons: Vec<String>,
    /// Folder with the shop's own profiles instead of the built-in demo range
    #[arg(long, value_name = "DIR", env = "LIDLADDER_PROFILES")]
    pub(in crate::cli) profiles: Option<PathBuf>,
    /// For people, for programs, for general graph tools, or as a drawing
    #[arg(long, value_name = "FORMAT", value_enum, default_value_t = TypedGraphFormat::Text)]
    pub(in crate::cli) format: TypedGraphFormat,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum TypedGraphFormat {
    Text,
    Json,
    Dot,
    Svg,
}

const EXAMPLES: &str = "\
Examples:
  lidladder fallbacks
  lidladder fallbacks --from wexmarsh-one
  lidladder fallbacks --from wexmarsh-one --if too-round --if too-oval
  lidladder fallbacks --if too-noisy --format svg > too-noisy.svg";
