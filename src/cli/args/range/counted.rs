//! What every question about the whole range takes: which helmets, which customers, for whom.

use super::super::TypedFilter;
use super::TypedPeople;
use clap::{Args, ValueEnum};

#[derive(Debug, Args)]
pub(in crate::cli) struct TypedCounted {
    #[command(flatten)]
    pub(in crate::cli) filter: TypedFilter,
    #[command(flatten)]
    pub(in crate::cli) people: TypedPeople,
}

/// What something with a picture is shown as.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum TypedPicturedFormat {
    Text,
    Json,
    Html,
    Svg,
}

/// What something without a picture is shown as.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum TypedPageFormat {
    Text,
    Json,
    Html,
}
