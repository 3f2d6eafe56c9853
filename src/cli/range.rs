//! `range`: the range of helmets over a whole population.

mod changed;
mod design;
mod keep;
mod maker;
mod people;
mod served;
mod stock;
mod windows;

pub(super) use people::{counted, customers};

use super::Output;
use super::args::{TypedRange, TypedRangeTask};
use crate::catalogue::Catalogue;
use crate::diag::{Diagnostic, Sources};

pub(super) fn answer(
    typed: &TypedRange,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Output, Vec<Diagnostic>> {
    match &typed.task {
        None if typed.shown.change.is_asked() => changed::answer(&typed.shown, catalogue, sources),
        None => served::answer(&typed.shown, catalogue, sources),
        Some(TypedRangeTask::Keep(typed)) => keep::answer(typed, catalogue, sources),
        Some(TypedRangeTask::Design(typed)) => design::answer(typed, catalogue, sources),
        Some(TypedRangeTask::Stock(typed)) => stock::answer(typed, catalogue, sources),
        Some(TypedRangeTask::Maker(typed)) => maker::answer(typed, catalogue, sources),
        Some(TypedRangeTask::Windows(typed)) => windows::answer(typed, catalogue, sources),
    }
}
