//! The grid with its words: what stands around the cells.

use super::super::text::{fitted, number};
use super::cell::{self, HEIGHT, SHADES, WIDTH};
use crate::layered::Extent;
use crate::range::{Cell, Customers, Map};
use crate::render::markup::escaped;
use std::ops::Range;

/// Room for the names of rows, and above the grid for title, legend and the names of columns.
const LEFT: f64 = 62.0;
const TOP: f64 = 158.0;
const MARGIN: f64 = 20.0;

/// The narrowest that the words above the map fit into, and the size of their letters.
const LEAST_WIDTH: f64 = 600.0;
const NOTE_SIZE: f64 = 11.0;

/// The part of a map that is drawn.
pub(super) struct Frame<'m> {
    pub(super) map: &'m Map,
    pub(super) rows: Range<u8>,
    pub(super) columns: Range<u8>,
}

impl<'m> Frame<'m> {
    pub(super) fn of(map: &'m Map) -> Self {
        let (rows, columns) = map.occupied();
        Self { map, rows, columns }
    }

    pub(super) fn size(&self) -> Extent {
        let width = (LEFT + WIDTH * self.columns.len() as f64 + MARGIN).max(LEAST_WIDTH);
        Extent { width, height: TOP + HEIGHT * self.rows.len() as f64 + MARGIN }
    }

    /// The upper left corner of a cell; of the cell behind the last one, where the grid ends.
    pub(super) fn corner(&self, (row, column): (u8, u8)) -> (f64, f64) {
        let [across, down] = [column - self.columns.start, row - self.rows.start].map(f64::from);
        (LEFT + WIDTH * across, TOP + HEIGHT * down)
    }

    /// Title, legend, and the names of rows and columns. `key` draws what else the legend has to say, at a place.
    pub(super) fn head(&self, title: &str, customers: &Customers<'_>, key: Option<fn(f64, f64) -> String>) -> String {
        let room = self.size().width - 2.0 * MARGIN;
        let whose = fitted(&format!("Customers of {}.", customers.whose()), NOTE_SIZE, room);
        let mut svg = format!(
            "<text class=\"heading\" x=\"{MARGIN}\" y=\"30\">{title}</text>\n\
             <text class=\"note\" x=\"{MARGIN}\" y=\"48\">{}</text>\n\
             <text class=\"note\" x=\"{MARGIN}\" y=\"64\">Large: models that fit one of them, on average. Small: customers of 1,000.</text>\n\
             <text class=\"note\" x=\"{MARGIN}\" y=\"80\">Where a cell is dark (on a dark screen: bright), few models fit, or none:</text>\n",
            escaped(&whose)
        );
        let mut x = MARGIN;
        for (class, words) in SHADES.into_iter().zip(["none", "1", "2", "3", "4 and more"]) {
            svg.push_str(&format!(
                "<rect class=\"{class}\" x=\"{0}\" y=\"88\" width=\"22\" height=\"14\"/><text class=\"note\" x=\"{1}\" y=\"99\">{words}</text>\n",
                number(x),
                number(x + 28.0)
            ));
            x += 62.0;
        }
        svg.push_str(&key.map_or_else(String::new, |key| key(MARGIN, 119.0)));
        svg.push_str(&format!("<text class=\"note\" x=\"2\" y=\"{}\">shape index</text>\n", number(TOP - 21.0)));
        svg + &self.names()
    }

    fn names(&self) -> String {
        let mut svg = String::new();
        for column in self.columns.clone() {
            let (x, y) = self.corner((self.rows.start, column));
            let [x, y] = [x + WIDTH / 2.0, y - 7.0].map(number);
            svg.push_str(&format!("<text class=\"step\" x=\"{x}\" y=\"{y}\">{column}</text>\n"));
        }
        for row in self.rows.clone() {
            let (x, y) = self.corner((row, self.columns.start));
            let [x, y] = [x - 8.0, y + 21.0].map(number);
            svg.push_str(&format!("<text class=\"row\" x=\"{x}\" y=\"{y}\">{row} cm</text>\n"));
        }
        svg
    }

    /// Every cell that has customers; `before` says what one was, where something is to change.
    pub(super) fn cells(&self, before: impl Fn(u8, u8) -> Option<Cell>) -> String {
        let all = self.map.heads();
        let places = self.rows.clone().flat_map(|row| self.columns.clone().map(move |column| (row, column)));
        let drawn = places.filter_map(|at| {
            let cell = self.map.cell(at.0, at.1);
            (cell.heads > 0).then(|| cell::drawn(cell, before(at.0, at.1), at, all, self.corner(at)))
        });
        drawn.collect()
    }
}
