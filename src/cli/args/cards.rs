//! What was typed behind `cards`.

use super::{TypedFilter, TypedPeople};
use clap::{Args, ValueEnum};

#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(in crate::cli) struct TypedCards {
    /// Ids of the models, as in the profiles; all that the options leave without any
    #[arg(value_name = "MODEL")]
    pub(in crate::cli) models: Vec<String>,
    #[command(flatten)]
    pub(in crate::cli) filter: TypedFilter,
    #[command(flatten)]
    pub(in crate::cli) people: TypedPeople,
    /// For a terminal, for documents, for paper and browsers, or for programs
    #[arg(long, value_name = "FORMAT", value_enum, default_value_t = TypedCardFormat::Text)]
    pub(in crate::cli) format: TypedCardFormat,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum TypedCardFormat {
    Text,
    Markdown,
    Html,
    Json,
}

const EXAMPLES: &str = "\
The options under \"Helmets\" also say where a next model is looked for.

Examples:
  lidladder cards wexmarsh-one
  lidladder cards --output cards.html
  lidladder cards --type adventure,off-road --population women --format markdown";
