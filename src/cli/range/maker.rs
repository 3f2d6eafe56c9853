//! `range maker`

use super::super::Output;
use super::super::args::TypedMaker;
use crate::catalogue::Catalogue;
use crate::diag::{Diagnostic, Sources};

pub(super) fn answer(_: &TypedMaker, _: &Catalogue, _: &mut Sources) -> Result<Output, Vec<Diagnostic>> {
    Err(Vec::new())
}
