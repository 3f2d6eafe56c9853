//! What was typed behind `range maker`.

use super::TypedCounted;
use crate::cli::args::TypedPageFormat;
use clap::Args;
use std::path::PathBuf;

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(in crate::cli) struct TypedMaker {
    /// The maker, as in the profiles
    #[arg(value_name = "NAME")]
    pub(in crate::cli) maker: String,
    /// Journals, or patterns such as 'branches/*.jsonl', whose complaints go into the sheet, counted
    #[arg(long, value_name = "FILE", num_args = 1..)]
    pub(in crate::cli) journal: Vec<PathBuf>,
    #[command(flatten)]
    pub(in crate::cli) counted: TypedCounted,
    /// For people, for programs, or for a browser
    #[arg(long, value_name = "FORMAT", value_enum, default_value_t = TypedPageFormat::Text)]
    pub(in crate::cli) format: TypedPageFormat,
}

const EXAMPLES: &str = "\
Examples:
  lidladder range maker tollern > for-tollern.txt
  lidladder range maker Pellgrave --journal 'branches/*.jsonl'
  lidladder range maker Skarnes --type adventure --format json";
