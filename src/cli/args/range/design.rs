//! What was typed behind `range design`.

use super::TypedCounted;
use crate::cli::args::TypedPictureFormat;
use clap::Args;

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(in crate::cli) struct TypedDesign {
    #[command(flatten)]
    pub(in crate::cli) counted: TypedCounted,
    /// For people, for programs, for a browser, or the picture alone
    #[arg(long, value_name = "FORMAT", value_enum, default_value_t = TypedPictureFormat::Text)]
    pub(in crate::cli) format: TypedPictureFormat,
}

const EXAMPLES: &str = "\
Examples:
  lidladder range design
  lidladder range design --type adventure
  lidladder range design --price-limit 300 --format json";
