//! `range` with `--drop`, `--add` or `--without-pads`: what would change.

use super::super::Output;
use super::super::args::TypedServed;
use crate::catalogue::Catalogue;
use crate::diag::{Diagnostic, Sources};

pub(super) fn answer(_: &TypedServed, _: &Catalogue, _: &mut Sources) -> Result<Output, Vec<Diagnostic>> {
    Err(Vec::new())
}
