//! Cells in which a change of the range wins or loses customers.

use super::super::text::number;
use super::cell::{WIDTH, lost};
use crate::range::Cell;

/// Fewer of 100 customers of a cell are no mark.
const LEAST: f64 = 1.0;

/// A triangle in the corner of the cell: up where more of its customers are served, down where fewer are.
pub(super) fn mark(before: Cell, after: Cell, (x, y): (f64, f64)) -> String {
    let [before, after] = [before, after].map(lost);
    let at = (x + WIDTH - 6.5, y + 7.0);
    match after - before {
        more if more >= LEAST => down(at),
        less if less <= -LEAST => up(at),
        _ => String::new(),
    }
}

/// What the triangles mean.
pub(super) fn key(x: f64, y: f64) -> String {
    let fewer = x + 290.0;
    let [words, more, base] = [x + 14.0, fewer + 14.0, y + 4.0].map(number);
    format!(
        "{}<text class=\"note\" x=\"{words}\" y=\"{base}\">at least 1 of 100 more is served than now</text>\n\
         {}<text class=\"note\" x=\"{more}\" y=\"{base}\">at least 1 of 100 fewer</text>\n",
        up((x + 5.0, y)),
        down((fewer + 5.0, y))
    )
}

fn up((x, y): (f64, f64)) -> String {
    triangle("won", [(x - 5.0, y + 4.0), (x + 5.0, y + 4.0), (x, y - 5.0)])
}

fn down((x, y): (f64, f64)) -> String {
    triangle("lost", [(x - 5.0, y - 4.0), (x + 5.0, y - 4.0), (x, y + 5.0)])
}

fn triangle(class: &str, corners: [(f64, f64); 3]) -> String {
    let [a, b, c] = corners.map(|(x, y)| format!("{} {}", number(x), number(y)));
    format!("<path class=\"{class}\" d=\"M{a}L{b}L{c}Z\"/>")
}
