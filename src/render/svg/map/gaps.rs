//! The gaps, as outlines around cells of the map.

use super::super::text::number;
use super::cell::{HEIGHT, WIDTH};
use super::frame::Frame;
use crate::range::{Gap, Served};
use crate::render::markup::escaped;
use crate::render::range_words::served::of_lost;
use itertools::Itertools;

/// Room that a number takes.
const APART: f64 = 18.0;

/// Every gap whose cells are on the map, with its number. The last one lies on top, so the smallest is never hidden.
pub(super) fn drawn(served: &Served<'_>, frame: &Frame<'_>) -> String {
    let mut numbers: Vec<(f64, f64)> = Vec::new();
    let mut svg = String::new();
    for (at, gap) in served.gaps.gaps.iter().enumerate() {
        let Some(cells) = cells(gap, frame) else { continue };
        let number = place(&numbers, cells, frame);
        numbers.push(number);
        svg.push_str(&outlined(
            gap,
            at + 1,
            &format!("Gap {}. {}", at + 1, of_lost(gap, served)),
            (cells, number),
            frame,
        ));
    }
    svg
}

/// What the outlines mean.
pub(super) fn key(x: f64, y: f64) -> String {
    let [middle, left, top, words, base] = [x + 11.0, x, y - 7.0, x + 28.0, y + 4.0].map(number);
    format!(
        "<g class=\"gap\"><rect x=\"{left}\" y=\"{top}\" width=\"22\" height=\"14\"/>\
         <text class=\"number\" x=\"{middle}\" y=\"{base}\">1</text></g>\
         <text class=\"note\" x=\"{words}\" y=\"{base}\">a gap: most of these customers fit nothing; dashed: only some faces there</text>\n"
    )
}

/// The first cell and the one behind the last in which somebody lies.
type Cells = ((u8, u8), (u8, u8));

fn cells(gap: &Gap<'_>, frame: &Frame<'_>) -> Option<Cells> {
    let within =
        |ends: [Option<f64>; 2], at: f64| ends[0].is_none_or(|from| at > from) && ends[1].is_none_or(|to| at < to);
    let (around, index) = (gap.region.circumference(), gap.region.shape_index());
    let seen = frame.map.cells().filter(|(row, column, cell)| {
        // Regions end where cells do.
        let [cm, points] = [*row, *column].map(|step| f64::from(step) + 0.5);
        let is_drawn = frame.rows.contains(row) && frame.columns.contains(column) && cell.heads > 0;
        is_drawn && within(around, cm * 10.0) && within(index, points)
    });
    let seen = seen.map(|(row, column, _)| (row, column)).collect_vec();
    let (top, bottom) = seen.iter().map(|(row, _)| *row).minmax().into_option()?;
    let (left, right) = seen.iter().map(|(_, column)| *column).minmax().into_option()?;
    Some(((top, left), (bottom + 1, right + 1)))
}

/// Where the number stands: on the outline, away from those that stand already.
fn place(taken: &[(f64, f64)], ((top, left), (bottom, right)): Cells, frame: &Frame<'_>) -> (f64, f64) {
    let above = (left..=right).map(|column| frame.corner((top, column)));
    let below = (left..=right).map(|column| frame.corner((bottom, column)));
    let beside = (top..=bottom).map(|row| frame.corner((row, left)));
    let mut places = above.chain(below).chain(beside);
    let is_free = |at: &(f64, f64)| taken.iter().all(|other| (at.0 - other.0).hypot(at.1 - other.1) >= APART);
    places.find(is_free).unwrap_or_else(|| frame.corner((top, left)))
}

fn outlined(
    gap: &Gap<'_>,
    count: usize,
    title: &str,
    ((first, last), (x, y)): (Cells, (f64, f64)),
    frame: &Frame<'_>,
) -> String {
    let class = if gap.region.face_width().iter().any(Option::is_some) { "gap some" } else { "gap" };
    let ((left, top), (right, bottom)) = (frame.corner(first), frame.corner(last));
    debug_assert!(right - left >= WIDTH && bottom - top >= HEIGHT, "a gap has cells");
    let [left, top, w, h] = [left, top, right - left, bottom - top].map(number);
    let rect = format!("x=\"{left}\" y=\"{top}\" width=\"{w}\" height=\"{h}\" rx=\"3\"");
    let [x, y, base] = [x, y, y + 4.0].map(number);
    format!(
        "<g class=\"{class}\" data-gap=\"{count}\"><title>{}</title><rect class=\"halo\" {rect}/><rect {rect}/>\
         <circle cx=\"{x}\" cy=\"{y}\" r=\"8\"/><text class=\"number\" x=\"{x}\" y=\"{base}\">{count}</text></g>\n",
        escaped(title)
    )
}
