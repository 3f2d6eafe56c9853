//! `range windows`

use super::super::Output;
use super::super::args::TypedWindows;
use crate::catalogue::Catalogue;
use crate::diag::{Diagnostic, Sources};

pub(super) fn answer(_: &TypedWindows, _: &Catalogue, _: &mut Sources) -> Result<Output, Vec<Diagnostic>> {
    Err(Vec::new())
}
