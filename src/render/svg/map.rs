//! The map of customers and helmets by circumference and shape index.

use super::picture::{Kind, Picture};
use super::text::number;
use crate::layered::Extent;
use crate::range::{Cell, Customers, Map};
use crate::render::colour::Scheme;
use crate::render::markup::escaped;

/// A cell with the number of helmets above and the customers below.
const WIDTH: f64 = 38.0;
const HEIGHT: f64 = 34.0;

/// Room for the names of rows, and above the grid for title, legend and the names of columns.
const LEFT: f64 = 76.0;
const TOP: f64 = 116.0;
const MARGIN: f64 = 24.0;

/// The narrowest that the words above the map fit into.
const LEAST_WIDTH: f64 = 620.0;

const TITLE: &str = "How many models serve whom";

/// The map as a drawing.
#[must_use]
pub fn range_map(customers: &Customers<'_>, map: &Map) -> Picture {
    let (rows, columns) = map.occupied();
    let width = (LEFT + WIDTH * columns.len() as f64 + MARGIN).max(LEAST_WIDTH);
    let height = TOP + HEIGHT * rows.len() as f64 + MARGIN;
    let mut svg = legend(customers);
    for (at, column) in columns.clone().enumerate() {
        let x = LEFT + WIDTH * (at as f64 + 0.5);
        svg.push_str(&format!(
            "<text class=\"step\" x=\"{}\" y=\"{}\">{column}</text>\n",
            number(x),
            number(TOP - 7.0)
        ));
    }
    let all = map.heads();
    for (down, row) in rows.enumerate() {
        let y = TOP + HEIGHT * down as f64;
        svg.push_str(&format!(
            "<text class=\"row\" x=\"{}\" y=\"{}\">{row} cm</text>\n",
            number(LEFT - 9.0),
            number(y + 21.0)
        ));
        for (across, column) in columns.clone().enumerate() {
            let cell = map.cell(row, column);
            if cell.heads > 0 {
                let x = LEFT + WIDTH * across as f64;
                svg.push_str(&drawn(cell, (row, column), all, (x, y)));
            }
        }
    }
    Picture {
        kind: Kind::Map,
        title: TITLE.to_owned(),
        description: description(customers, map),
        size: Extent { width, height },
        body: svg,
        is_followed: false,
    }
}

fn description(customers: &Customers<'_>, map: &Map) -> String {
    let lost: u64 = map.cells().map(|(_, _, cell)| cell.heads - cell.on_offer).sum();
    format!(
        "Customers of {}. Rows are circumferences, columns shape indices (100 × breadth / length). In each cell the number of models that \
         serve a customer on average, with the pads on offer, and customers of 1,000. {:.2} % of all customers fit nothing.",
        customers.whose(),
        100.0 * lost as f64 / map.heads().max(1) as f64
    )
}

fn legend(customers: &Customers<'_>) -> String {
    let mut svg = format!(
        "<text class=\"heading\" x=\"{MARGIN}\" y=\"36\">{TITLE}</text>\n\
         <text class=\"note\" x=\"{MARGIN}\" y=\"56\">Customers of {}: above, models that fit one of them on average; below, customers of 1,000.</text>\n",
        escaped(&customers.whose())
    );
    let mut x = MARGIN;
    for (class, words) in SHADES.into_iter().zip(["none", "1", "2", "3", "4 and more"]) {
        svg.push_str(&format!(
            "<rect class=\"{class}\" x=\"{0}\" y=\"66\" width=\"22\" height=\"14\"/><text class=\"note\" x=\"{1}\" y=\"77\">{words}</text>\n",
            number(x),
            number(x + 28.0)
        ));
        x += 70.0;
    }
    svg.push_str(&format!(
        "<text class=\"note\" x=\"{}\" y=\"{}\">shape index</text>\n",
        number(MARGIN - 18.0),
        number(TOP - 7.0)
    ));
    svg
}

fn drawn(cell: Cell, (row, column): (u8, u8), all: u64, (x, y): (f64, f64)) -> String {
    let helmets = cell.mean_helmets();
    let lost = 100.0 * (cell.heads - cell.on_offer) as f64 / cell.heads as f64;
    let customers = 1000.0 * cell.heads as f64 / all as f64;
    let title = format!(
        "{row} to {} cm, shape index {column} to {}: {customers:.2} of 1,000 customers, {helmets:.1} models fit one of them \
         on average, nothing fits {lost:.0} % of them",
        row + 1,
        column + 1
    );
    let class = shade(helmets);
    let [left, top, w, h] = [x + 1.0, y + 1.0, WIDTH - 2.0, HEIGHT - 2.0].map(number);
    let [middle, upper, lower] = [x + WIDTH / 2.0, y + 16.0, y + 28.0].map(number);
    format!(
        "<g><title>{title}</title><rect class=\"{class}\" x=\"{left}\" y=\"{top}\" width=\"{w}\" height=\"{h}\"/>\
         <text class=\"on-{class} count\" x=\"{middle}\" y=\"{upper}\">{helmets:.0}</text>\
         <text class=\"on-{class} few\" x=\"{middle}\" y=\"{lower}\">{}</text></g>\n",
        per_thousand(customers)
    )
}

/// In three characters.
fn per_thousand(customers: f64) -> String {
    match customers {
        _ if customers < 0.05 => "0".to_owned(),
        _ if customers < 0.95 => format!("{customers:.1}"),
        _ => format!("{customers:.0}"),
    }
}

/// Classes of cells, from those that nothing serves.
const SHADES: [&str; 5] = ["none", "one", "two", "three", "many"];

fn shade(helmets: f64) -> &'static str {
    SHADES[SHADES.iter().enumerate().position(|(at, _)| helmets < at as f64 + 0.5).unwrap_or(SHADES.len() - 1)]
}

/// What doesn't depend on the scheme.
pub(super) const SHAPE: &str = "\
.step,.count,.few{text-anchor:middle}
.row{text-anchor:end}
.count{font-size:13px;font-weight:bold}
.few{font-size:10px}
";

/// Grounds of the cells with the colour of the words on them, from none to many.
pub(super) fn colours(scheme: &Scheme) -> String {
    let rule = |(class, (ground, words)): (&str, (&str, &str))| {
        format!(".{class}{{fill:{ground};stroke:{};stroke-width:0.5}}\n.on-{class}{{fill:{words}}}\n", scheme.faint)
    };
    SHADES.into_iter().zip(scheme.shades).map(rule).collect()
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
