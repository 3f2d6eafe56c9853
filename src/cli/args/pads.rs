//! What was typed behind `pads`.

use super::TypedPageFormat;
use clap::{Args, ValueEnum};
use std::path::PathBuf;

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(in crate::cli) struct TypedPads {
    /// Id of the model, as in the profiles
    #[arg(value_name = "MODEL")]
    pub(in crate::cli) model: String,
    /// Label of the size
    #[arg(value_name = "SIZE")]
    pub(in crate::cli) size: String,
    /// A wanted pad: brow, rear, sides, crown or cheeks, and its thickness in mm
    #[arg(value_name = "ZONE=MM", required = true)]
    pub(in crate::cli) pads: Vec<String>,
    /// How many of each: so many helmets, or so many for the drawer
    #[arg(long, value_name = "COUNT", default_value_t = 1, allow_negative_numbers = true, value_parser = clap::value_parser!(u32).range(1..=20))]
    pub(in crate::cli) sets: u32,
    /// For the shop's drawer: nothing goes into a helmet, nothing comes out
    #[arg(long)]
    pub(in crate::cli) stock: bool,
    /// What is in the helmet now, where it isn't the standard pad
    #[arg(long, value_name = "ZONE=MM", value_delimiter = ',')]
    pub(in crate::cli) from: Vec<String>,
    /// Pads of this shell that the shop has already; one that it has twice is named twice
    #[arg(long, value_name = "ZONE=MM", value_delimiter = ',')]
    pub(in crate::cli) in_drawer: Vec<String>,
    /// Who pays; the shop's file says it otherwise
    #[arg(long, value_name = "WHO", value_enum)]
    pub(in crate::cli) paid_by: Option<TypedPayer>,
    /// Folder with the shop's own profiles instead of the built-in demo range
    #[arg(long, value_name = "DIR", env = "LIDLADDER_PROFILES")]
    pub(in crate::cli) profiles: Option<PathBuf>,
    /// For people, for programs, or as a page for a browser and for paper
    #[arg(long, value_name = "FORMAT", value_enum, default_value_t = TypedPageFormat::Text)]
    pub(in crate::cli) format: TypedPageFormat,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum TypedPayer {
    /// The customer, beyond what the shop gives for nothing
    Customer,
    /// The shop, whatever it comes to
    Shop,
}

const EXAMPLES: &str = "\
Examples:
  lidladder pads wexmarsh-one M sides=9.5 cheeks=27.5
  lidladder pads dunvarrick-gravel M brow=7 --in-drawer rear=9.5 --paid-by shop
  lidladder pads lantreth-hinge L sides=9 --from sides=13 --sets 2
  lidladder pads wexmarsh-one M sides=9.5 sides=17.5 --stock --sets 3";
