//! What was typed behind `range`.

mod counted;
mod design;
mod keep;
mod maker;
mod stock;
mod windows;

pub(in crate::cli) use counted::TypedCounted;
pub(in crate::cli) use design::TypedDesign;
pub(in crate::cli) use keep::{TypedKeep, TypedServedWith};
pub(in crate::cli) use maker::TypedMaker;
pub(in crate::cli) use stock::TypedStock;
pub(in crate::cli) use windows::{TypedPer, TypedWindows};

use super::{TypedFilter, TypedPictureFormat};
use clap::{Args, Subcommand};
use std::num::NonZeroUsize;
use std::path::PathBuf;

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES, args_conflicts_with_subcommands = true)]
pub(in crate::cli) struct TypedRange {
    #[command(flatten)]
    pub(in crate::cli) shown: TypedServed,
    /// What else to ask of the range
    #[command(subcommand)]
    pub(in crate::cli) task: Option<TypedRangeTask>,
}

#[derive(Debug, Subcommand)]
pub(in crate::cli) enum TypedRangeTask {
    /// The smallest range that still serves nearly everybody, and how many models serve how many
    Keep(TypedKeep),
    /// The new model that would win most customers: shape, sizes, tunable zones
    Design(TypedDesign),
    /// Pads for the drawer: what is used, how many to have, and what they are worth
    Stock(TypedStock),
    /// A sheet for a maker: which pads, sizes and zones they don't offer, and what that costs
    Maker(TypedMaker),
    /// What every size fits, as a table of boxes for any database
    Windows(TypedWindows),
}

impl TypedRange {
    /// The folder that was asked for, whatever is to be done with it.
    pub(in crate::cli) fn profiles(&self) -> Option<&PathBuf> {
        match &self.task {
            None => self.shown.people.profiles.as_ref(),
            Some(TypedRangeTask::Keep(typed)) => typed.counted.people.profiles.as_ref(),
            Some(TypedRangeTask::Design(typed)) => typed.counted.people.profiles.as_ref(),
            Some(TypedRangeTask::Stock(typed)) => typed.counted.people.profiles.as_ref(),
            Some(TypedRangeTask::Maker(typed)) => typed.counted.people.profiles.as_ref(),
            Some(TypedRangeTask::Windows(typed)) => typed.profiles.as_ref(),
        }
    }
}

/// Who is served, and what would change.
#[derive(Debug, Args)]
pub(in crate::cli) struct TypedServed {
    #[command(flatten)]
    pub(in crate::cli) filter: TypedFilter,
    #[command(flatten)]
    pub(in crate::cli) change: TypedChange,
    #[command(flatten)]
    pub(in crate::cli) people: TypedPeople,
    /// For people, for programs, for a browser, or the map as a drawing
    #[arg(long, value_name = "FORMAT", value_enum, default_value_t = TypedPictureFormat::Text)]
    pub(in crate::cli) format: TypedPictureFormat,
}

#[derive(Debug, Args)]
#[command(next_help_heading = "What if")]
pub(in crate::cli) struct TypedChange {
    /// Models that are dropped
    #[arg(long, value_name = "MODELS", value_delimiter = ',')]
    pub(in crate::cli) drop: Vec<String>,
    /// A model that comes in: a file of helmets, or MODEL@INDEX for one like it with another shape index, in
    /// all its sizes or as MODEL@INDEX/M/L in some
    #[arg(long, value_name = "HELMETS")]
    pub(in crate::cli) add: Vec<String>,
    /// Pads on offer that aren't kept: MODEL for all, MODEL/ZONE, or MODEL/ZONE=MM
    #[arg(long, value_name = "PADS", value_delimiter = ',')]
    pub(in crate::cli) without_pads: Vec<String>,
}

impl TypedChange {
    /// Whether anything is to change.
    pub(in crate::cli) fn is_asked(&self) -> bool {
        !(self.drop.is_empty() && self.add.is_empty() && self.without_pads.is_empty())
    }
}

/// Whose heads are counted.
#[derive(Debug, Args)]
#[command(next_help_heading = "Customers")]
pub(in crate::cli) struct TypedPeople {
    /// Whose heads come in: an id of the profiles
    #[arg(long, value_name = "ID")]
    pub(in crate::cli) population: Option<String>,
    /// How many heads are drawn from it
    #[arg(long, value_name = "COUNT", default_value_t = 131_072, allow_negative_numbers = true, value_parser = clap::value_parser!(u64).range(1_000..=1_000_000_000))]
    pub(in crate::cli) heads: u64,
    /// A table of heads (CSV) instead; - for standard input
    #[arg(long, value_name = "FILE", conflicts_with = "heads")]
    pub(in crate::cli) heads_from: Option<PathBuf>,
    /// Threads to count on; as many as the machine has without it, and the same answer with any number
    #[arg(long, value_name = "COUNT")]
    pub(in crate::cli) threads: Option<NonZeroUsize>,
    /// Folder with the shop's own profiles instead of the built-in demo range
    #[arg(long, value_name = "DIR", env = "LIDLADDER_PROFILES")]
    pub(in crate::cli) profiles: Option<PathBuf>,
    /// Seed of the sampled heads: the same seed gives the same output, to the byte
    #[arg(long, value_name = "NUMBER", default_value_t = 1, allow_negative_numbers = true)]
    pub(in crate::cli) seed: u64,
}

const EXAMPLES: &str = "\
Examples:
  lidladder range
  lidladder range --type adventure --price-limit 450
  lidladder range --drop wexmarsh-slender --add wexmarsh-one@83
  lidladder range --heads-from our-customers.csv --format json
  lidladder range --format html > range.html
  lidladder range keep
  lidladder range stock";
