//! What was typed behind `fallbacks`.

use super::{TypedCommon, TypedFormat, TypedPageFormat};
use clap::{Args, Subcommand, ValueEnum};
use std::path::PathBuf;

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES, args_conflicts_with_subcommands = true)]
pub(in crate::cli) struct TypedFallbacks {
    #[command(flatten)]
    pub(in crate::cli) shown: TypedShown,
    /// What else to do with the rules
    #[command(subcommand)]
    pub(in crate::cli) task: Option<TypedTask>,
}

impl TypedFallbacks {
    /// The folder that was asked for, whatever is to be done with it.
    pub(in crate::cli) fn profiles(&self) -> Option<&PathBuf> {
        match &self.task {
            None => self.shown.profiles.as_ref(),
            Some(TypedTask::Audit(typed)) => typed.question.common.profiles.as_ref(),
            Some(TypedTask::Propose(typed)) => typed.question.common.profiles.as_ref(),
        }
    }
}

#[derive(Debug, Args)]
pub(in crate::cli) struct TypedShown {
    /// Only the rules from this model, and those that lead to it: its id, as in the profiles
    #[arg(long, value_name = "MODEL")]
    pub(in crate::cli) from: Option<String>,
    /// Only the rules for this reason; with --from, the ways for the first reason, from there for the second, and so on
    #[arg(long = "if", value_name = "REASON")]
    pub(in crate::cli) reasons: Vec<String>,
    /// Folder with the shop's own profiles instead of the built-in demo range
    #[arg(long, value_name = "DIR", env = "LIDLADDER_PROFILES")]
    pub(in crate::cli) profiles: Option<PathBuf>,
    /// For people, for programs, for general graph tools, as a drawing, or as a page with drawing and rules
    #[arg(long, value_name = "FORMAT", value_enum, default_value_t = TypedGraphFormat::Text)]
    pub(in crate::cli) format: TypedGraphFormat,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum TypedGraphFormat {
    Text,
    Json,
    Dot,
    Svg,
    Html,
}

#[derive(Debug, Subcommand)]
pub(in crate::cli) enum TypedTask {
    /// What customers take who follow the rules, which of them mislead, and what would help most
    Audit(TypedAudit),
    /// Rules for every model and reason from the computation, with the shop's own for what geometry doesn't tell
    Propose(TypedPropose),
}

#[derive(Debug, Args)]
#[command(after_help = AUDIT_EXAMPLES)]
pub(in crate::cli) struct TypedAudit {
    #[command(flatten)]
    pub(in crate::cli) question: TypedQuestion,
    /// For people, for programs, or as a page for a browser and for paper
    #[arg(long, value_name = "FORMAT", help_heading = "General", value_enum, default_value_t = TypedPageFormat::Text)]
    pub(in crate::cli) format: TypedPageFormat,
}

#[derive(Debug, Args)]
#[command(after_help = AUDIT_EXAMPLES)]
pub(in crate::cli) struct TypedPropose {
    #[command(flatten)]
    pub(in crate::cli) question: TypedQuestion,
    /// For people or for programs
    #[arg(long, value_name = "FORMAT", help_heading = "General", value_enum, default_value_t = TypedFormat::Text)]
    pub(in crate::cli) format: TypedFormat,
}

/// Who comes in, and where rules may lead.
#[derive(Debug, Args)]
pub(in crate::cli) struct TypedQuestion {
    /// How many customers come in
    #[arg(long, value_name = "COUNT", default_value_t = 100_000, allow_negative_numbers = true, value_parser = clap::value_parser!(u32).range(1_000..=10_000_000))]
    pub(in crate::cli) customers: u32,
    /// What is measured of each: circumference, length, breadth, face-width
    #[arg(long, value_name = "MEASURES", value_delimiter = ',', default_value = "circumference")]
    pub(in crate::cli) measured: Vec<String>,
    /// Helmets to try at most; the shop's file says how many without it
    #[arg(long, value_name = "COUNT", allow_negative_numbers = true, value_parser = clap::value_parser!(u8).range(1..=8))]
    pub(in crate::cli) steps: Option<u8>,
    /// Lead only to models of the type that failed: a flip-front to a flip-front
    #[arg(long)]
    pub(in crate::cli) keep_type: bool,
    /// Whose heads come in: an id of the profiles
    #[arg(long, value_name = "ID")]
    pub(in crate::cli) population: Option<String>,
    #[command(flatten)]
    pub(in crate::cli) common: TypedCommon,
}

const AUDIT_EXAMPLES: &str = "\
Examples:
  lidladder fallbacks audit
  lidladder fallbacks audit --measured circumference,breadth --customers 20000
  lidladder fallbacks audit --output audit.html
  lidladder fallbacks propose > proposed.yaml";

const EXAMPLES: &str = "\
Examples:
  lidladder fallbacks
  lidladder fallbacks --from wexmarsh-one
  lidladder fallbacks --from wexmarsh-one --if too-round --if too-oval
  lidladder fallbacks --if too-noisy --format svg --output too-noisy.svg
  lidladder fallbacks --output rules.html
  lidladder fallbacks audit";
