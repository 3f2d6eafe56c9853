//! `range keep`

use super::super::Output;
use super::super::args::TypedKeep;
use crate::catalogue::Catalogue;
use crate::diag::{Diagnostic, Sources};

pub(super) fn answer(_: &TypedKeep, _: &Catalogue, _: &mut Sources) -> Result<Output, Vec<Diagnostic>> {
    Err(Vec::new())
}
