//! What was typed behind `drill`.

use super::{TypedFilter, TypedFormat};
use clap::{Args, ValueEnum};
use std::path::PathBuf;

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(in crate::cli) struct TypedDrill {
    /// What is asked, each in its turn; all of it without this option
    #[arg(long = "exercise", value_name = "KINDS", help_heading = "Practice", value_enum, value_delimiter = ',')]
    pub(in crate::cli) exercises: Vec<TypedExercise>,
    /// How hard: 1 tape, caliper and a look; 2 tape, a look and a complaint; 3 the customer's tape and wrong reports
    #[arg(long, value_name = "1|2|3", help_heading = "Practice", default_value_t = 1, allow_negative_numbers = true, value_parser = clap::value_parser!(u8).range(1..=3))]
    pub(in crate::cli) level: u8,
    /// Customers of this run
    #[arg(long, value_name = "COUNT", help_heading = "Practice", default_value_t = 10, allow_negative_numbers = true, value_parser = clap::value_parser!(u64).range(1..=500))]
    pub(in crate::cli) customers: u64,
    /// Whose heads come in: an id of the profiles; the shop's without it
    #[arg(long, value_name = "ID", help_heading = "Practice")]
    pub(in crate::cli) population: Option<String>,
    /// Heads as often as they come into the shop, instead of rare ones as often as common ones
    #[arg(long, help_heading = "Practice")]
    pub(in crate::cli) as_they_come: bool,
    /// Nothing that went wrong comes again: the same customers for everybody with this seed
    #[arg(long, help_heading = "Practice")]
    pub(in crate::cli) same_for_all: bool,
    /// How a head from above is shown
    #[arg(long, value_name = "HOW", help_heading = "Practice", value_enum, default_value_t = TypedLook::Drawn)]
    pub(in crate::cli) look: TypedLook,
    /// Answers from a file, one a line, instead of from the keyboard
    #[arg(long, value_name = "FILE", help_heading = "Practice")]
    pub(in crate::cli) answers: Option<PathBuf>,
    /// The trainee's own file that results are added to; customers go on where it ends, and weak spots return
    #[arg(long, value_name = "FILE", help_heading = "Practice")]
    pub(in crate::cli) results: Option<PathBuf>,
    /// Print the questions to hand out, without solutions, each with a line for the answer; implies --same-for-all
    #[arg(long, help_heading = "Practice", conflicts_with_all = ["answers", "results", "format"])]
    pub(in crate::cli) paper: bool,
    /// Day of the results, as 2026-03-14; today without it
    #[arg(long, value_name = "DAY", help_heading = "Practice")]
    pub(in crate::cli) day: Option<String>,
    #[command(flatten)]
    pub(in crate::cli) filter: TypedFilter,
    /// Folder with the shop's own profiles instead of the built-in demo range
    #[arg(long, value_name = "DIR", env = "LIDLADDER_PROFILES", help_heading = "General")]
    pub(in crate::cli) profiles: Option<PathBuf>,
    /// Seed of the customers: the same seed gives the same ones, to the byte
    #[arg(long, value_name = "NUMBER", default_value_t = 1, allow_negative_numbers = true, help_heading = "General")]
    pub(in crate::cli) seed: u64,
    /// For people, or the results alone for programs
    #[arg(long, value_name = "FORMAT", value_enum, default_value_t = TypedFormat::Text, help_heading = "General")]
    pub(in crate::cli) format: TypedFormat,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, ValueEnum)]
pub(in crate::cli) enum TypedExercise {
    /// A customer from the first helmet to the last
    Session,
    /// A helmet failed, and why: what now?
    Next,
    /// Which shape a head has
    Shape,
    /// A helmet failed, and why: which pads, or none?
    Pads,
    /// Whether something seen is an absolute stop
    Stop,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum TypedLook {
    /// Its outline
    Drawn,
    /// In a word, for those who can't see a drawing
    Words,
}

const EXAMPLES: &str = "\
Examples:
  lidladder drill
  lidladder drill --exercise next,pads --level 2 --customers 6
  lidladder drill --results mine.jsonl
  lidladder drill --paper --exercise shape,stop --seed 7 > paper.txt";
