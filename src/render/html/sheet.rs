//! A measuring sheet for customers at home.

use super::Page;
use super::block::{list, paragraph};
use crate::away::{READINGS, Sheet, Spot};
use crate::render::markup::escaped;
use crate::render::sheet_words::{BEFORE, NEEDED, ROUNDS, SEND, SLIPS, TITLE, exactness, how, name, tool};
use itertools::Itertools;

/// A measuring sheet, made for paper.
#[must_use]
pub fn sheet(sheet: &Sheet<'_>) -> String {
    let steps = sheet.spots.iter().map(step).join("");
    let rows = sheet.spots.iter().map(row).join("");
    let rounds = (1..=READINGS).map(|round| format!("<th scope=\"col\">{round}.</th>")).join("");
    let exact = exactness(&sheet.spots).map_or_else(String::new, |words| paragraph(&words));
    let body = [
        format!("<h2>You need</h2>\n{}", paragraph(NEEDED)),
        format!("<h2>Before</h2>\n{}", list(BEFORE)),
        format!("<h2>Measure, in this order</h2>\n<ol>\n{steps}</ol>\n{}", paragraph(ROUNDS)),
        "<h2>Write down, in mm</h2>\n<table>\n".to_owned(),
        format!("<tr><td></td>{rounds}<th scope=\"col\">once more, if two differ by more than</th></tr>\n"),
        format!("{rows}</table>\n"),
        format!("<h2>What goes wrong most often</h2>\n{}{exact}", list(SLIPS)),
        format!("<h2>Send us</h2>\n{}", list(SEND)),
        "<p class=\"line\">Name</p>\n<p class=\"line\">Helmet now, and where it hurts</p>\n".to_owned(),
    ];
    let about = format!("from {}", sheet.shop);
    Page { title: TITLE, about: &about, style: STYLE, main: body.concat(), ..Page::default() }.finish()
}

fn step(spot: &Spot) -> String {
    let name = escaped(name(spot.measure));
    format!("<li><b>{name}</b> ({}). {}</li>\n", escaped(tool(spot)), escaped(how(spot.measure)))
}

fn row(spot: &Spot) -> String {
    let spaces = "<td></td>".repeat(READINGS);
    let apart = spot.far_apart.map_or_else(String::new, |mm| format!("{mm} mm:"));
    format!("<tr><th scope=\"row\">{}</th>{spaces}<td>{apart}</td></tr>\n", escaped(name(spot.measure)))
}

/// Made to be printed; wide enough for a telephone.
const STYLE: &str = "\
h2 { font-size: 1.1rem; margin: .9rem 0 .2rem }
table { width: 100%; table-layout: fixed; break-inside: avoid }
/* Room for three digits by hand. */
tr > :first-child { width: 31% }
tr > :last-child { width: 26% }
th, td { border: 1px solid var(--ink); height: 2.2em; padding: 0 .4em }
tr:first-child th, tr:first-child td { height: auto }
td:first-child { border: none }
.line { border-bottom: 1px solid var(--ink); margin-top: 1.4em }
";

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_no_markup() {
        let page = sheet(&Sheet { shop: "<b>&\"'\u{202e}", spots: Vec::new() });
        assert!(page.contains("from &lt;b&gt;&amp;&quot;&#39;\u{fffd}</p>") && !page.contains("<b>&"));
    }
}
