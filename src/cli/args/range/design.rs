//! What was typed behind `range design`.

use super::TypedCounted;
use clap::Args;

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(in crate::cli) struct TypedDesign {
    #[command(flatten)]
    pub(in crate::cli) counted: TypedCounted,
}

const EXAMPLES: &str = "\
Examples:
  lidladder range design
  lidladder range design --type adventure
  lidladder range design --price-limit 300 --format json";
