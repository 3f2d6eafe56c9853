//! The head as inferred.

use super::block::{paragraph, section, table};
use crate::fit::Estimate;
use crate::profile::ShapeWords;
use crate::render::table::{Column, Table};
use crate::render::text::percent;

/// What the readings say about the head.
pub(super) fn head(estimate: &Estimate) -> String {
    let names = ["circumference, mm", "length, mm", "breadth, mm", "face width, mm", "shape index"];
    let rows = names.iter().zip(estimate.mean).zip(estimate.sd);
    let rows = rows
        .map(|((name, mean), sd)| vec![(*name).to_owned(), format!("{:.1}", mean.value), format!("±{:.1}", sd.value)]);
    let measures =
        Table::plain(vec![Column::words("measure"), Column::numbers("inferred"), Column::numbers("sd")], rows);
    let words = ShapeWords::NAMES.iter().zip(estimate.words);
    let words = words.map(|(word, share)| format!("{word} oval {}", percent(share.value)));
    let shape = format!("Shape: {}.", words.collect::<Vec<_>>().join(", "));
    section(
        "head",
        "The head",
        &[table("What that says of the head; sd: two of three such heads are within it", &measures), paragraph(&shape)],
    )
}
