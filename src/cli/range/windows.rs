//! `range windows`

use super::super::args::{TypedPer, TypedWindows};
use super::super::resolve::helmets;
use super::super::{Ending, Output};
use crate::catalogue::Catalogue;
use crate::diag::{Diagnostic, Sources};
use crate::range::{set_windows, size_windows};
use crate::render::csv;

pub(super) fn answer(
    typed: &TypedWindows,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Output, Vec<Diagnostic>> {
    let candidates = helmets(&typed.filter, catalogue, sources)?;
    let windows = match typed.per {
        TypedPer::Size => size_windows(&candidates, &catalogue.shop.fit),
        TypedPer::Set => set_windows(&candidates, &catalogue.shop.fit),
    };
    Ok(Output { text: csv::windows(&windows), ending: Ending::Done })
}
