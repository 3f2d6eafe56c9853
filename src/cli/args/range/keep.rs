//! What was typed behind `range keep`.

use super::super::{TypedFilter, TypedFormat};
use super::TypedPeople;
use clap::Args;

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(in crate::cli) struct TypedKeep {
    /// Of 100 customers that all models serve, so many must still be served; as in the shop's file without it
    #[arg(long, value_name = "PERCENT", allow_negative_numbers = true)]
    pub(in crate::cli) share: Option<String>,
    /// Models that stay whatever they serve
    #[arg(long, value_name = "MODELS", value_delimiter = ',')]
    pub(in crate::cli) always: Vec<String>,
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
  lidladder range keep
  lidladder range keep --share 95 --always lantreth-hush,haspenfell-penny
  lidladder range keep --type adventure,off-road --format json";
