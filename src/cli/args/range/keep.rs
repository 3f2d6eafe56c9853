//! What was typed behind `range keep`.

use super::TypedCounted;
use crate::cli::args::TypedPictureFormat;
use clap::{Args, ValueEnum};

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(in crate::cli) struct TypedKeep {
    /// Of 100 customers that all models serve, so many must still be served; as in the shop's file without it
    #[arg(long, value_name = "PERCENT", allow_negative_numbers = true)]
    pub(in crate::cli) share: Option<String>,
    /// Models that stay whatever they serve
    #[arg(long, value_name = "MODELS", value_delimiter = ',')]
    pub(in crate::cli) always: Vec<String>,
    /// With which pads a customer counts as served
    #[arg(long, value_name = "PADS", value_enum, default_value_t = TypedServedWith::OnOffer)]
    pub(in crate::cli) pads: TypedServedWith,
    #[command(flatten)]
    pub(in crate::cli) counted: TypedCounted,
    /// For people, for programs, for a browser, or the picture alone
    #[arg(long, value_name = "FORMAT", value_enum, default_value_t = TypedPictureFormat::Text)]
    pub(in crate::cli) format: TypedPictureFormat,
}

/// Which pads count.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum TypedServedWith {
    /// All that the makers offer
    OnOffer,
    /// Those that the helmets come with
    Standard,
}

const EXAMPLES: &str = "\
Examples:
  lidladder range keep
  lidladder range keep --share 95 --always lantreth-hush,haspenfell-penny
  lidladder range keep --pads standard
  lidladder range keep --type adventure,off-road --format json";
