//! Pages of the range for a browser, read by an independent XML reader.

mod figures;
mod hostile;

use crate::markup::{is_sound, is_whole_with_tables, named, parsed, words};
use crate::support::{lidladder, once};
use itertools::Itertools;
use roxmltree::{Document, Node};
use rstest::rstest;
use std::collections::BTreeMap;

/// The rows of each table by its caption, without the head.
fn tables(page: &Document<'_>) -> BTreeMap<String, Vec<Vec<String>>> {
    let of = |table: Node<'_, '_>| {
        // A wide one is in a frame that has its name.
        let caption = table.children().find(|node| node.has_tag_name("caption")).map(words);
        let frame = || table.parent().and_then(|frame| frame.attribute("aria-label")).map(str::to_owned);
        let caption = caption.or_else(frame).expect("a caption");
        let rows = table.descendants().filter(|node| node.has_tag_name("tr")).skip(1);
        let cells = |row: Node<'_, '_>| row.children().filter(Node::is_element).map(words).collect_vec();
        (caption, rows.map(cells).collect_vec())
    };
    named(page, "table").map(of).collect()
}

/// The table whose caption begins so.
#[track_caller]
fn table<'t>(tables: &'t BTreeMap<String, Vec<Vec<String>>>, start: &str) -> &'t [Vec<String>] {
    let found = tables.iter().filter(|(caption, _)| caption.starts_with(start)).map(|(_, rows)| rows).collect_vec();
    assert_eq!(found.len(), 1, "{start}: {:?}", tables.keys());
    found[0]
}

const JOURNAL: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/docs/examples/year/journal.jsonl");

#[rstest]
#[case("range")]
#[case("range --type open-face --price-limit 150")]
#[case("range --type flip-front --population women --seed 4")]
#[case("range --drop wexmarsh-slender,lantreth-longways --add wexmarsh-one@83/S/M")]
#[case("range --drop quorrie-plain")]
#[case("range keep")]
#[case("range keep --share 95 --pads standard --always quorrie-peak")]
#[case("range design")]
#[case("range design --type flip-front")]
#[case("range stock --budget 500")]
#[case("range stock --margin 0.35 --type off-road")]
#[case("range stock --model haspenfell-plum")]
#[case("range stock --model quorrie-plain")]
#[case("range maker tollern")]
#[case("range maker Skarnes --type adventure")]
fn a_page_is_one_sound_file(#[case] line: &str) {
    let run = lidladder(&format!("{line} --heads 2000 --format html"));
    assert!(run.status < 2 && run.stderr.is_empty(), "{}", run.stderr);
    // A maker gets figures to build by, and no helmet to put on.
    let is_sound = if line.starts_with("range maker") { is_whole_with_tables } else { is_sound };
    is_sound(&run.stdout);
    let again = lidladder(&format!("{line} --heads 2000 --threads 3 --format html"));
    assert_eq!(run.stdout, again.stdout, "the same bytes");
}

/// A drawing says what the page has; both are the same but for their style.
#[rstest]
#[case("range", "map")]
#[case("range --drop lantreth-longways", "map")]
#[case("range keep", "bars")]
#[case("range design --type flip-front", "bars")]
#[case("range stock", "bars")]
fn a_drawing_is_the_one_of_the_page(#[case] line: &str, #[case] class: &str) {
    let drawing = once(&format!("{line} --heads 5000 --format svg"));
    let page = once(&format!("{line} --heads 5000 --format html"));
    let [start, end] = [&format!("<svg class=\"{class}\""), "</svg>"].map(|mark| page.good().find(mark).expect(mark));
    let drawn = |svg: &str| svg.split_once("<rect class=\"ground\"").expect("a ground").1.replace("</svg>\n", "");
    assert_eq!(drawn(&page.good()[start..end]), drawn(drawing.good()));
    let tree = Document::parse(drawing.good()).expect("it is XML");
    let root = tree.root_element();
    let size = |name| root.attribute(name).and_then(|text| text.parse::<f64>().ok()).expect("a size");
    for text in root.descendants().filter(|node| node.has_tag_name("text")) {
        let at = |name| text.attribute(name).and_then(|text| text.parse::<f64>().ok()).expect("a place");
        assert!((0.0..size("width")).contains(&at("x")) && (0.0..size("height")).contains(&at("y")), "{text:?}");
    }
}

/// What a maker is told of complaints is the same on every page.
#[test]
fn complaints_stand_on_the_sheet() {
    let line = format!("range maker tollern --heads 2000 --journal {JOURNAL}");
    let page = once(&format!("{line} --format html"));
    let plain = once(&line).good().split_whitespace().join(" ");
    is_whole_with_tables(page.good());
    let tables = tables(&parsed(page.good()));
    for row in table(&tables, "Complaints") {
        let words = format!("{}: {} - {}, {}: {}", row[0], row[1], row[2], row[3], row[4]);
        assert!(plain.contains(&words), "{words}");
    }
    assert_eq!(table(&tables, "Complaints").len(), 12);
}

/// Where a margin leaves no best stock, the page of the range says so and shows all else.
#[test]
fn a_range_without_a_best_stock_has_its_page() {
    let folder = crate::support::Folder::with_profiles();
    folder.edit("profiles/shop.yaml", "left_over_loss: 0.1", "left_over_loss: 0.0\n  margin: 0.3");
    let run = folder.run("range --profiles profiles --heads 1000 --format html");
    is_sound(run.good());
    assert!(run.stdout.contains("no stock is too large") && run.stdout.contains("Models and families"));
}
