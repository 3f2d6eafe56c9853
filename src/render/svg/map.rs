//! The map of customers and helmets by circumference and shape index.

use super::text::{cut, escaped, number, width};
use crate::range::{Cell, Customers, Map};

/// A cell with the number of helmets above and the customers below.
const WIDTH: f64 = 38.0;
const HEIGHT: f64 = 34.0;

/// Room for the names of rows, and above the grid for title, legend and the names of columns.
const LEFT: f64 = 76.0;
const TOP: f64 = 116.0;
const MARGIN: f64 = 24.0;

/// Size of the letters above the map, and the longest name of customers there; the whole of it stands in the description.
const NOTE_SIZE: f64 = 11.0;
const LONGEST_NAME: usize = 60;

const TITLE: &str = "How many models serve whom";

/// The map as a drawing, whole in itself.
#[must_use]
pub fn range_map(customers: &Customers<'_>, map: &Map) -> String {
    let (rows, columns) = map.occupied();
    let note = note(customers);
    let width = (LEFT + WIDTH * columns.len() as f64).max(MARGIN + width(&note, NOTE_SIZE)) + MARGIN;
    let height = TOP + HEIGHT * rows.len() as f64 + MARGIN;
    let [w, h] = [width, height].map(number);
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}\" height=\"{h}\" viewBox=\"0 0 {w} {h}\" role=\"img\">\n\
         <title>{TITLE}</title>\n<desc>{}</desc>\n{}<rect class=\"ground\" width=\"{w}\" height=\"{h}\"/>\n",
        escaped(&description(customers, map)),
        style(),
    );
    svg.push_str(&legend(&note));
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
    svg.push_str("</svg>\n");
    svg
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

fn note(customers: &Customers<'_>) -> String {
    let whose = cut(&customers.whose(), LONGEST_NAME);
    format!("Customers of {whose}: above, models that fit one of them on average; below, customers of 1,000.")
}

fn legend(note: &str) -> String {
    let mut svg = format!(
        "<text class=\"heading\" x=\"{MARGIN}\" y=\"36\">{TITLE}</text>\n\
         <text class=\"note\" x=\"{MARGIN}\" y=\"56\">{}</text>\n",
        escaped(note)
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
        "<g data-cell=\"{row} {column}\"><title>{title}</title><rect class=\"{class}\" x=\"{left}\" y=\"{top}\" width=\"{w}\" height=\"{h}\"/>\
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

/// Grounds of the cells with the colour of the words on them, from none to many: one hue, so that they differ by how
/// light they are, for every eye and on grey paper.
struct Palette {
    ground: &'static str,
    text: &'static str,
    faint: &'static str,
    cells: [(&'static str, &'static str); 5],
}

const LIGHT: Palette = Palette {
    ground: "#ffffff",
    text: "#16191d",
    faint: "#4a525c",
    cells: [
        ("#0a2f52", "#ffffff"),
        ("#2a6da6", "#ffffff"),
        ("#93bfe2", "#16191d"),
        ("#c9dff1", "#16191d"),
        ("#eef1f4", "#16191d"),
    ],
};

const DARK: Palette = Palette {
    ground: "#14171a",
    text: "#eceff2",
    faint: "#b3bcc6",
    cells: [
        ("#e3f1fd", "#14171a"),
        ("#86c4fb", "#14171a"),
        ("#2a6da6", "#ffffff"),
        ("#1d4468", "#eceff2"),
        ("#272d34", "#eceff2"),
    ],
};

fn style() -> String {
    format!(
        "<style>\n\
         text{{font-family:sans-serif;font-size:11px}}\n\
         .heading{{font-size:17px;font-weight:bold}}\n\
         .step,.count,.few{{text-anchor:middle}}\n\
         .row{{text-anchor:end}}\n\
         .count{{font-size:13px;font-weight:bold}}\n\
         .few{{font-size:10px}}\n\
         {}@media (prefers-color-scheme:dark){{\n{}}}\n\
         </style>\n",
        LIGHT.rules(),
        DARK.rules()
    )
}

impl Palette {
    fn rules(&self) -> String {
        let Self { ground, text, faint, cells } = self;
        let mut rules = format!(
            "svg{{color-scheme:light dark}}\n.ground{{fill:{ground}}}\ntext{{fill:{text}}}\n.note{{fill:{faint}}}\n"
        );
        for (class, (ground, words)) in SHADES.into_iter().zip(cells) {
            rules.push_str(&format!(
                ".{class}{{fill:{ground};stroke:{faint};stroke-width:0.5}}\n.on-{class}{{fill:{words}}}\n"
            ));
        }
        rules
    }
}

#[cfg(test)]
mod tests {
    use super::super::paint::tests::contrast;
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case(&LIGHT)]
    #[case(&DARK)]
    fn all_words_can_be_read(#[case] palette: &Palette) {
        for (front, back) in
            [(palette.text, palette.ground), (palette.faint, palette.ground)].iter().chain(&palette.cells)
        {
            assert!(contrast(front, back) >= 4.5, "{front} on {back}");
        }
    }

    #[rstest]
    #[case(&LIGHT)]
    #[case(&DARK)]
    fn cells_differ_on_grey_paper(#[case] palette: &Palette) {
        for pair in palette.cells.windows(2) {
            assert!(contrast(pair[0].0, pair[1].0) >= 1.2, "{:?}", pair);
        }
    }

    #[test]
    fn shades_follow_the_rounded_number() {
        assert_eq!(
            [0.0, 0.49, 0.5, 1.4, 2.6, 3.4, 3.5, 20.0].map(shade),
            ["none", "none", "one", "one", "three", "three", "many", "many"]
        );
    }
}
