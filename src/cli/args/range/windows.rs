//! What was typed behind `range windows`.

use super::super::TypedFilter;
use clap::Args;
use std::path::PathBuf;

#[derive(Debug, Args)]
pub(in crate::cli) struct TypedWindows {
    #[command(flatten)]
    pub(in crate::cli) filter: TypedFilter,
    /// Folder with the shop's own profiles instead of the built-in demo range
    #[arg(long, value_name = "DIR", env = "LIDLADDER_PROFILES")]
    pub(in crate::cli) profiles: Option<PathBuf>,
}
