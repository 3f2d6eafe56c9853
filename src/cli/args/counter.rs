//! What was typed behind `counter`.

use super::{TypedFilter, TypedHead, TypedLead};
use clap::Args;
use std::path::PathBuf;

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(in crate::cli) struct TypedCounter {
    #[command(flatten)]
    pub(in crate::cli) head: TypedHead,
    #[command(flatten)]
    pub(in crate::cli) filter: TypedFilter,
    /// Helmets to try at most; the shop's file says how many without it
    #[arg(long, value_name = "COUNT", help_heading = "Session", allow_negative_numbers = true, value_parser = clap::value_parser!(u8).range(1..=8))]
    pub(in crate::cli) steps: Option<u8>,
    /// Minutes that the customer has
    #[arg(long, value_name = "MINUTES", help_heading = "Session", allow_negative_numbers = true)]
    pub(in crate::cli) minutes: Option<String>,
    /// Who says what to try next
    #[arg(long, value_name = "WHO", help_heading = "Session", value_enum, default_value_t = TypedLead::ShopFirst)]
    pub(in crate::cli) lead: TypedLead,
    /// File that records of tries are added to; without it nothing is kept
    #[arg(long, value_name = "FILE", help_heading = "Session", env = "LIDLADDER_JOURNAL")]
    pub(in crate::cli) journal: Option<PathBuf>,
    /// Go on with a session that was left: the number of its customer; without a number, the only one there is
    #[arg(long, value_name = "NUMBER", help_heading = "Session", num_args = 0..=1, require_equals = true, requires = "journal", conflicts_with_all = BEGINNING)]
    pub(in crate::cli) resume: Option<Option<u64>>,
    /// Answers from a file, one a line, instead of from the keyboard
    #[arg(long, value_name = "FILE", help_heading = "Session")]
    pub(in crate::cli) answers: Option<PathBuf>,
    /// Day to write into the records, as 2026-03-14; today without it
    #[arg(long, value_name = "DAY", help_heading = "Session")]
    pub(in crate::cli) day: Option<String>,
    /// Folder with the shop's own profiles instead of the built-in demo range
    #[arg(long, value_name = "DIR", env = "LIDLADDER_PROFILES", help_heading = "General")]
    pub(in crate::cli) profiles: Option<PathBuf>,
    /// Seed of the sampled heads: the same seed gives the same session, to the byte
    #[arg(long, value_name = "NUMBER", default_value_t = 1, allow_negative_numbers = true, help_heading = "General")]
    pub(in crate::cli) seed: u64,
}

/// What only the beginning of a session can say.
const BEGINNING: [&str; 20] = [
    "circumference",
    "length",
    "breadth",
    "face_width",
    "measured_by",
    "measured_with",
    "shape",
    "wears",
    "population",
    "customer",
    "types",
    "must",
    "price_limit",
    "mass_limit",
    "out_of_stock",
    "steps",
    "minutes",
    "lead",
    "day",
    "seed",
];

const EXAMPLES: &str = "\
Examples:
  lidladder counter --circumference 57.5cm --journal shop.jsonl
  lidladder counter -c 575 -b 152 --type adventure --minutes 45
  lidladder counter --resume --journal shop.jsonl
  lidladder counter -c 575 --answers answers.txt";
