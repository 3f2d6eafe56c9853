//! The gaps, as outlines around cells of the map.

use super::super::text::number;
use super::frame::Frame;
use crate::range::{Gap, Served};
use crate::render::markup::escaped;
use crate::render::range_words::served::of_lost;
use itertools::Itertools;

/// Room that a number takes.
const APART: f64 = 18.0;

/// Outlines that a map has room for.
const MOST: usize = 4;

/// The first gaps whose cells are on the map, with their numbers on top of all outlines. Gaps of some faces only have none:
/// the map tells no faces apart.
pub(super) fn drawn(served: &Served<'_>, frame: &Frame<'_>) -> String {
    let of_all_faces = served.gaps.gaps.iter().enumerate().filter(|(_, gap)| gap.region.face_width() == [None; 2]);
    let seen = of_all_faces.filter_map(|(at, gap)| Some((at + 1, gap, cells(gap, frame)?))).take(MOST);
    let mut numbers: Vec<(f64, f64)> = Vec::new();
    let [mut outlines, mut labels] = [String::new(), String::new()];
    for (count, gap, cells) in seen {
        outlines.push_str(&outline(cells, frame));
        let at = place(&numbers, cells, frame);
        labels.push_str(&label(count, &format!("Gap {count}. {}", of_lost(gap, served)), at));
        numbers.push(at);
    }
    outlines + &labels
}

/// What the outlines mean.
pub(super) fn key(x: f64, y: f64) -> String {
    let [middle, left, top, words, base] = [x + 11.0, x, y - 7.0, x + 28.0, y + 4.0].map(number);
    format!(
        "<g class=\"outline\"><rect x=\"{left}\" y=\"{top}\" width=\"22\" height=\"14\"/>\
         <text class=\"number\" x=\"{middle}\" y=\"{base}\">1</text></g>\
         <text class=\"note\" x=\"{words}\" y=\"{base}\">one of the largest gaps, with its number: most of these customers fit nothing</text>\n"
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

fn outline((first, last): Cells, frame: &Frame<'_>) -> String {
    let ((left, top), (right, bottom)) = (frame.corner(first), frame.corner(last));
    let [left, top, w, h] = [left, top, right - left, bottom - top].map(number);
    let rect = format!("x=\"{left}\" y=\"{top}\" width=\"{w}\" height=\"{h}\" rx=\"3\"");
    format!("<g class=\"outline\"><rect class=\"halo\" {rect}/><rect {rect}/></g>\n")
}

fn label(count: usize, title: &str, (x, y): (f64, f64)) -> String {
    let [x, y, base] = [x, y, y + 4.0].map(number);
    format!(
        "<g class=\"gap\" data-gap=\"{count}\"><title>{}</title><circle cx=\"{x}\" cy=\"{y}\" r=\"8\"/>\
         <text class=\"number\" x=\"{x}\" y=\"{base}\">{count}</text></g>\n",
        escaped(title)
    )
}
