//! What was typed behind `away`.

use super::{TypedCommon, TypedFilter, TypedHead, TypedPageFormat};
use clap::{Args, Subcommand, ValueEnum};
use std::path::PathBuf;

#[derive(Debug, Args)]
pub(in crate::cli) struct TypedAway {
    /// What to do
    #[command(subcommand)]
    pub(in crate::cli) task: TypedAwayTask,
}

impl TypedAway {
    /// The folder that was asked for, whatever is to be done with it.
    pub(in crate::cli) fn profiles(&self) -> Option<&PathBuf> {
        match &self.task {
            TypedAwayTask::Sheet(typed) => typed.profiles.as_ref(),
            TypedAwayTask::Order(typed) => typed.common.profiles.as_ref(),
        }
    }
}

#[derive(Debug, Subcommand)]
pub(in crate::cli) enum TypedAwayTask {
    /// A sheet to print or send: how to measure a head at home
    Sheet(TypedSheet),
    /// From what a customer measured: send one helmet, send two, or have the customer come in
    Order(Box<TypedOrder>),
}

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(in crate::cli) struct TypedSheet {
    /// Folder with the shop's own profiles instead of the built-in demo range
    #[arg(long, value_name = "DIR", env = "LIDLADDER_PROFILES")]
    pub(in crate::cli) profiles: Option<PathBuf>,
    /// For a letter, or as a page for a browser or a mail
    #[arg(long, value_name = "FORMAT", value_enum, default_value_t = TypedSheetFormat::Text)]
    pub(in crate::cli) format: TypedSheetFormat,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum TypedSheetFormat {
    Text,
    Html,
}

#[derive(Debug, Args)]
#[command(after_help = ORDER_HELP)]
pub(in crate::cli) struct TypedOrder {
    #[command(flatten)]
    pub(in crate::cli) head: TypedHead,
    #[command(flatten)]
    pub(in crate::cli) filter: TypedFilter,
    #[command(flatten)]
    pub(in crate::cli) common: TypedCommon,
    /// For people, for programs, or as a page for a browser and for paper
    #[arg(long, value_name = "FORMAT", help_heading = "General", value_enum, default_value_t = TypedPageFormat::Text)]
    pub(in crate::cli) format: TypedPageFormat,
}

const EXAMPLES: &str = "\
Examples:
  lidladder away sheet
  lidladder away sheet --output measure.html";

const ORDER_HELP: &str = "\
Here the customer is taken to have measured, with tape, books and ruler, unless --measured-by and --measured-with say
something else. Several readings of one measure are written with commas between them.

Examples:
  lidladder away order -c 575,578,574 -l 197,199,196 -b 153,152,154
  lidladder away order -c 57.5cm --wears wexmarsh-one/M/temples-press";
