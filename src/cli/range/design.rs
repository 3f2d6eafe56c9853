//! `range design`

use super::super::Output;
use super::super::args::TypedDesign;
use crate::catalogue::Catalogue;
use crate::diag::{Diagnostic, Sources};

pub(super) fn answer(_: &TypedDesign, _: &Catalogue, _: &mut Sources) -> Result<Output, Vec<Diagnostic>> {
    Err(Vec::new())
}
