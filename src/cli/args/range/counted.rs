//! What every question about the whole range takes: which helmets, which customers, for whom.

use super::super::TypedFilter;
use super::TypedPeople;
use clap::Args;

#[derive(Debug, Args)]
pub(in crate::cli) struct TypedCounted {
    #[command(flatten)]
    pub(in crate::cli) filter: TypedFilter,
    #[command(flatten)]
    pub(in crate::cli) people: TypedPeople,
}
