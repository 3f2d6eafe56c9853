//! The map of circumference and shape index.

use crate::range::{Cell, Map};
use anstyle::{Ansi256Color, Color, Style};
use itertools::Itertools;

/// A page has room for so many columns.
const MOST_COLUMNS: u8 = 24;

/// How many models serve a customer of each cell. Where colours are shown, the fewer the darker; a dot is a cell without
/// customers.
pub(super) fn helmets(map: &Map) -> Vec<String> {
    drawn(map, |cell| {
        let helmets = cell.mean_helmets();
        let style = shade(helmets);
        format!("{style}{:>3}{style:#}", format!("{:.0}", helmets.min(99.0)))
    })
}

/// Customers of each cell, of 1,000.
pub(super) fn by_cell(map: &Map) -> Vec<String> {
    let all = map.heads() as f64;
    drawn(map, |cell| {
        let customers = 1000.0 * cell.heads as f64 / all;
        let words = match customers {
            _ if customers < 0.05 => "0".to_owned(),
            _ if customers < 0.95 => format!("{customers:.1}").replace("0.", "."),
            _ => format!("{:.0}", customers.min(999.0)),
        };
        format!("{words:>3}")
    })
}

/// White on the darkest ground is a gap; what four models and more serve has no ground. The number says the same.
fn shade(helmets: f64) -> Style {
    let colours = |letters: u8, ground: u8| {
        let [letters, ground] = [letters, ground].map(|code| Some(Color::Ansi256(Ansi256Color(code))));
        Style::new().fg_color(letters).bg_color(ground)
    };
    match helmets {
        _ if helmets < 0.5 => colours(231, 17).bold(),
        _ if helmets < 1.5 => colours(231, 25),
        _ if helmets < 2.5 => colours(16, 110),
        _ if helmets < 3.5 => colours(16, 153),
        _ => Style::new(),
    }
}

fn drawn(map: &Map, words: impl Fn(Cell) -> String) -> Vec<String> {
    let (rows, mut columns) = map.occupied();
    columns.end = columns.end.min(columns.start + MOST_COLUMNS);
    let mut lines = vec![format!("  index{}", columns.clone().map(|column| format!("{column:>3}")).join(""))];
    for row in rows {
        let cells = columns.clone().map(|column| match map.cell(row, column) {
            Cell { heads: 0, .. } => "  .".to_owned(),
            cell => words(cell),
        });
        lines.push(format!("  {row:>2} cm{}", cells.collect_vec().concat()));
    }
    lines
}
