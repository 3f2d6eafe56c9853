//! What was typed behind `range stock`.

use super::TypedCounted;
use crate::cli::args::TypedPictureFormat;
use clap::Args;
use std::path::PathBuf;

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(in crate::cli) struct TypedStock {
    /// Show this model alone, pad by pad: its id
    #[arg(long, value_name = "MODEL")]
    pub(in crate::cli) model: Option<String>,
    /// What to buy first for so much
    #[arg(long, value_name = "AMOUNT", allow_negative_numbers = true)]
    pub(in crate::cli) budget: Option<String>,
    /// Journals that say how often each model was taken; without any, each that fits is as likely as another
    #[arg(long, value_name = "FILE")]
    pub(in crate::cli) journal: Vec<PathBuf>,
    /// Customers that come in for a helmet in a week; the shop's file says it otherwise
    #[arg(long, value_name = "NUMBER", allow_negative_numbers = true)]
    pub(in crate::cli) customers_per_week: Option<String>,
    /// Days from the order of a pad to having it
    #[arg(long, value_name = "DAYS", allow_negative_numbers = true)]
    pub(in crate::cli) delivery_days: Option<String>,
    /// The probability with which a pad is there whenever it is wanted until the next delivery
    #[arg(long, value_name = "SHARE", allow_negative_numbers = true)]
    pub(in crate::cli) service_level: Option<String>,
    /// What the shop earns with a pad, as a share of its price: weighs missing pads against pads left over instead
    #[arg(long, value_name = "SHARE", allow_negative_numbers = true)]
    pub(in crate::cli) margin: Option<String>,
    #[command(flatten)]
    pub(in crate::cli) counted: TypedCounted,
    /// For people, for programs, for a browser, or the picture alone
    #[arg(long, value_name = "FORMAT", value_enum, default_value_t = TypedPictureFormat::Text)]
    pub(in crate::cli) format: TypedPictureFormat,
}

const EXAMPLES: &str = "\
Examples:
  lidladder range stock
  lidladder range stock --customers-per-week 40 --delivery-days 3 --budget 500
  lidladder range stock --margin 0.35 --journal 'branches/*.jsonl'
  lidladder range stock --model wexmarsh-one";
