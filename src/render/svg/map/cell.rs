//! One cell: how many models fit, how many customers there are.

use super::super::text::number;
use super::changes;
use crate::range::Cell;

/// A cell has the number of models above and the customers below.
pub(super) const WIDTH: f64 = 34.0;
pub(super) const HEIGHT: f64 = 34.0;

/// Classes of cells, from those that nothing serves.
pub(super) const SHADES: [&str; 5] = ["none", "one", "two", "three", "many"];

/// The cell that begins at a circumference and an index, of so many heads in all, with its upper left corner.
pub(super) fn drawn(cell: Cell, before: Option<Cell>, (row, column): (u8, u8), all: u64, (x, y): (f64, f64)) -> String {
    let helmets = cell.mean_helmets();
    let customers = 1000.0 * cell.heads as f64 / all as f64;
    let was =
        |words: &dyn Fn(Cell) -> String| before.map_or_else(String::new, |cell| format!(" (now: {})", words(cell)));
    let title = format!(
        "{row} to {} cm, shape index {column} to {}: {customers:.2} of 1,000 customers, {helmets:.1} models fit one of them \
         on average{}, nothing fits {:.0} % of them{}",
        row + 1,
        column + 1,
        was(&|cell| format!("{:.1}", cell.mean_helmets())),
        lost(cell),
        was(&|cell| format!("{:.0} %", lost(cell))),
    );
    let class = shade(helmets);
    let [left, top, w, h] = [x + 1.0, y + 1.0, WIDTH - 2.0, HEIGHT - 2.0].map(number);
    let [middle, upper, lower] = [x + WIDTH / 2.0, y + 16.0, y + 29.0].map(number);
    let mark = before.map_or_else(String::new, |before| changes::mark(before, cell, (x, y)));
    format!(
        "<g data-cell=\"{row} {column}\"><title>{title}</title><rect class=\"{class}\" x=\"{left}\" y=\"{top}\" width=\"{w}\" height=\"{h}\"/>\
         <text class=\"on-{class} count\" x=\"{middle}\" y=\"{upper}\">{helmets:.0}</text>\
         <text class=\"on-{class} few\" x=\"{middle}\" y=\"{lower}\">{}</text>{mark}</g>\n",
        per_thousand(customers)
    )
}

/// Of 100 customers of a cell so many fit nothing.
pub(super) fn lost(cell: Cell) -> f64 {
    100.0 * (cell.heads - cell.on_offer) as f64 / cell.heads.max(1) as f64
}

/// In three characters.
fn per_thousand(customers: f64) -> String {
    match customers {
        _ if customers < 0.05 => "0".to_owned(),
        _ if customers < 0.95 => format!("{customers:.1}"),
        _ => format!("{customers:.0}"),
    }
}

fn shade(helmets: f64) -> &'static str {
    SHADES[SHADES.iter().enumerate().position(|(at, _)| helmets < at as f64 + 0.5).unwrap_or(SHADES.len() - 1)]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shades_follow_the_rounded_number() {
        assert_eq!(
            [0.0, 0.49, 0.5, 1.4, 2.6, 3.4, 3.5, 20.0].map(shade),
            ["none", "none", "one", "one", "three", "three", "many", "many"]
        );
    }
}
