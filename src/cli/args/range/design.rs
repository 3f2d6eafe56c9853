//! What was typed behind `range design`.

use super::super::{TypedFilter, TypedFormat};
use super::TypedPeople;
use clap::Args;

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(in crate::cli) struct TypedDesign {
    #[command(flatten)]
    pub(in crate::cli) filter: TypedFilter,
    #[command(flatten)]
    pub(in crate::cli) people: TypedPeople,
    /// For people or for programs
    #[arg(long, value_name = "FORMAT", value_enum, default_value_t = TypedFormat::Text)]
    pub(in crate::cli) format: TypedFormat,
}

const EXAMPLES: &str = "\
Examples:
  lidladder range design
  lidladder range design --type adventure
  lidladder range design --price-limit 300 --format json";
