//! Pages of the range for a browser, read by an independent XML reader.

mod figures;
mod hostile;

use crate::support::{lidladder, once};
use itertools::Itertools;
use roxmltree::{Document, Node};
use rstest::rstest;
use std::collections::BTreeMap;

/// The page without the kind of document, which is no XML.
#[track_caller]
fn body(page: &str) -> Document<'_> {
    let rest = page.strip_prefix("<!DOCTYPE html>\n").expect("the kind of document");
    Document::parse(rest).expect("every element is closed")
}

fn named<'d>(page: &'d Document<'_>, name: &'static str) -> impl Iterator<Item = Node<'d, 'd>> {
    page.descendants().filter(move |node| node.has_tag_name(name))
}

fn text(node: Node<'_, '_>) -> String {
    node.descendants().filter(Node::is_text).filter_map(|node| node.text()).collect()
}

/// The rows of each table by its caption, without the head.
fn tables(page: &Document<'_>) -> BTreeMap<String, Vec<Vec<String>>> {
    let of = |table: Node<'_, '_>| {
        // A wide one is in a frame that has its name.
        let caption = table.children().find(|node| node.has_tag_name("caption")).map(text);
        let frame = || table.parent().and_then(|frame| frame.attribute("aria-label")).map(str::to_owned);
        let caption = caption.or_else(frame).expect("a caption");
        let rows = table.descendants().filter(|node| node.has_tag_name("tr")).skip(1);
        let cells = |row: Node<'_, '_>| row.children().filter(Node::is_element).map(text).collect_vec();
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
    is_sound(&run.stdout);
    let again = lidladder(&format!("{line} --heads 2000 --threads 3 --format html"));
    assert_eq!(run.stdout, again.stdout, "the same bytes");
}

/// What every page has, and what none has.
fn is_sound(page: &str) {
    let document = body(page);
    for name in ["script", "img", "link", "iframe", "object", "a"] {
        assert_eq!(named(&document, name).count(), 0, "{name}");
    }
    assert!(document.descendants().flat_map(|node| node.attributes()).all(|at| !at.name().starts_with("on")));
    assert!(!page.contains("://") && !page.contains("url("), "nothing comes from elsewhere");
    assert!(!page.contains("NaN") && !page.contains("inf "), "figures are numbers");
    assert_eq!(document.root_element().attribute("lang"), Some("en"));
    for name in ["header", "main", "h1"] {
        assert_eq!(named(&document, name).count(), 1, "{name}");
    }
    let levels = document.descendants().filter_map(|node| node.tag_name().name().strip_prefix('h')?.parse::<u8>().ok());
    let levels = levels.collect_vec();
    assert!(levels[0] == 1 && levels.iter().tuple_windows().all(|(a, b)| *b <= a + 1 && *b > 1), "{levels:?}");
    let ids = document.descendants().filter_map(|node| node.attribute("id")).collect_vec();
    assert!(ids.iter().all_unique(), "{ids:?}");
    let regions = document.descendants().filter(|node| node.attribute("role") == Some("region")).collect_vec();
    assert!(regions.iter().map(|node| node.attribute("aria-label")).all_unique(), "regions have names of their own");
    assert!(regions.iter().all(|node| node.attribute("tabindex") == Some("0")));
    for table in named(&document, "table") {
        let heads = table.descendants().filter(|node| node.has_tag_name("th"));
        assert!(heads.clone().all(|head| matches!(head.attribute("scope"), Some("col" | "row"))));
        let widths = table.descendants().filter(|node| node.has_tag_name("tr"));
        let widths = widths.map(|row| row.children().filter(Node::is_element).count()).collect_vec();
        assert!(widths.iter().all_equal() && widths.len() > 1, "{widths:?}");
    }
    for picture in document.descendants().filter(|node| node.has_tag_name("svg")) {
        let class = picture.attribute("class").expect("a kind");
        assert!(page.contains(&format!("svg.{class}{{")), "the style of {class} is there");
        let said = picture.children().filter(|node| matches!(node.tag_name().name(), "title" | "desc"));
        assert_eq!(said.filter(|node| node.text().is_some_and(|words| words.len() > 10)).count(), 2);
        let places = picture.children().filter_map(|node| node.attribute("data-cell")).collect_vec();
        assert!(places.iter().all_unique(), "each cell once");
    }
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
    is_sound(page.good());
    let tables = tables(&body(page.good()));
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
