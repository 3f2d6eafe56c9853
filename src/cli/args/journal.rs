//! What was typed behind `journal`.

use super::TypedFormat;
use clap::{Args, Subcommand, ValueEnum};
use std::path::PathBuf;

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES, args_conflicts_with_subcommands = true)]
pub(in crate::cli) struct TypedJournal {
    #[command(flatten)]
    pub(in crate::cli) listing: TypedListing,
    /// What else to do with a journal
    #[command(subcommand)]
    pub(in crate::cli) task: Option<TypedJournalTask>,
}

#[derive(Debug, Subcommand)]
pub(in crate::cli) enum TypedJournalTask {
    /// Every line that is no record, and whatever is doubtful in the others, each with its line and what to do
    Verify(TypedVerify),
    /// Appends the records that come in on standard input, and names each once it is safe on the disk
    Add(TypedAdd),
}

#[derive(Debug, Args)]
pub(in crate::cli) struct TypedJournals {
    /// Journals, or patterns such as 'branches/*.jsonl'; without any, that of --journal
    #[arg(value_name = "FILE")]
    pub(in crate::cli) files: Vec<PathBuf>,
    /// The journal where no file is named
    #[arg(long, value_name = "FILE", env = "LIDLADDER_JOURNAL")]
    pub(in crate::cli) journal: Option<PathBuf>,
}

#[derive(Debug, Args)]
pub(in crate::cli) struct TypedListing {
    #[command(flatten)]
    pub(in crate::cli) journals: TypedJournals,
    /// Only tries of this model: its id
    #[arg(long, value_name = "MODEL")]
    pub(in crate::cli) model: Option<String>,
    /// Only tries in this size
    #[arg(long, value_name = "LABEL")]
    pub(in crate::cli) size: Option<String>,
    /// Only tries that ended with this reason, or with `fits`
    #[arg(long, value_name = "REASON")]
    pub(in crate::cli) reason: Option<String>,
    /// Only tries of this customer
    #[arg(long, value_name = "NUMBER", allow_negative_numbers = true)]
    pub(in crate::cli) customer: Option<u64>,
    /// Only tries on this day or later: 2026-03-14
    #[arg(long, value_name = "DAY")]
    pub(in crate::cli) since: Option<String>,
    /// Only tries on this day or before
    #[arg(long, value_name = "DAY")]
    pub(in crate::cli) until: Option<String>,
    /// For people, for programs, or for a spreadsheet (one row for each set of pads)
    #[arg(long, value_name = "FORMAT", value_enum, default_value_t = TypedTableFormat::Text)]
    pub(in crate::cli) format: TypedTableFormat,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum TypedTableFormat {
    Text,
    Json,
    Csv,
}

#[derive(Debug, Args)]
#[command(after_help = VERIFY_EXAMPLES)]
pub(in crate::cli) struct TypedVerify {
    #[command(flatten)]
    pub(in crate::cli) journals: TypedJournals,
    /// Count warnings as errors
    #[arg(long)]
    pub(in crate::cli) strict: bool,
    /// Folder with the shop's own profiles instead of the built-in demo range
    #[arg(long, value_name = "DIR", env = "LIDLADDER_PROFILES")]
    pub(in crate::cli) profiles: Option<PathBuf>,
    /// For people or for programs
    #[arg(long, value_name = "FORMAT", value_enum, default_value_t = TypedFormat::Text)]
    pub(in crate::cli) format: TypedFormat,
}

#[derive(Debug, Args)]
#[command(after_help = ADD_EXAMPLES)]
pub(in crate::cli) struct TypedAdd {
    /// The journal; it is made where it is missing. Without it, that of --journal
    #[arg(value_name = "FILE")]
    pub(in crate::cli) file: Option<PathBuf>,
    /// The journal where no file is named
    #[arg(long, value_name = "FILE", env = "LIDLADDER_JOURNAL")]
    pub(in crate::cli) journal: Option<PathBuf>,
}

const EXAMPLES: &str = "\
Examples:
  lidladder journal shop.jsonl
  lidladder journal north.jsonl south.jsonl --model wexmarsh-one --reason too-round
  lidladder journal shop.jsonl --since 2026-01-01 --format csv > tries.csv
  lidladder journal verify shop.jsonl";

const VERIFY_EXAMPLES: &str = "\
Examples:
  lidladder journal verify shop.jsonl
  lidladder journal verify shop.jsonl --profiles my-shop --strict";

const ADD_EXAMPLES: &str = "\
Examples:
  lidladder journal add shop.jsonl < second-till.jsonl";
