//! What holds of every page that ends with cautions, and a look into it.

use crate::markup::is_one_whole_page;
use itertools::Itertools;
use roxmltree::{Document, Node};

/// The page without the kind of document, which is no XML.
#[track_caller]
pub(crate) fn body(page: &str) -> &str {
    page.strip_prefix("<!DOCTYPE html>\n").expect("the kind of document")
}

/// One whole page, with rows of the same length in each table, and the cautions at its end.
#[track_caller]
pub(crate) fn is_sound(page: &str) {
    is_one_whole_page(page);
    let document = Document::parse(body(page)).expect("every element is closed");
    for table in named(&document, "table") {
        let rows = table.descendants().filter(|node| node.has_tag_name("tr")).map(cells).collect_vec();
        assert!(rows.len() > 1 && rows.iter().all_equal(), "{rows:?}");
    }
    assert_eq!(sections(&document).last().map(String::as_str), Some("Cautions"));
}

/// Cells of a row, those that span several counted so.
fn cells(row: Node<'_, '_>) -> usize {
    let span = |cell: Node<'_, '_>| cell.attribute("colspan").map_or(1, |span| span.parse().expect("a number"));
    row.children().filter(Node::is_element).map(span).sum()
}

pub(crate) fn named<'d>(page: &'d Document<'_>, name: &'static str) -> impl Iterator<Item = Node<'d, 'd>> {
    page.descendants().filter(move |node| node.has_tag_name(name))
}

/// What stands in an element, with one space between words.
pub(crate) fn text(node: Node<'_, '_>) -> String {
    let parts = node.descendants().filter(Node::is_text).filter_map(|node| node.text());
    parts.collect_vec().join(" ").split_whitespace().join(" ")
}

/// The headings of the second rank.
pub(crate) fn sections(page: &Document<'_>) -> Vec<String> {
    named(page, "h2").map(text).collect()
}

/// The cells of the rows of a part of a page, by its id.
pub(crate) fn rows(page: &Document<'_>, part: &str) -> Vec<Vec<String>> {
    let part = page.descendants().find(|node| node.attribute("id") == Some(part)).expect("the part is there");
    let bodies = part.descendants().filter(|node| node.has_tag_name("tbody"));
    let rows = bodies.flat_map(|body| body.children().filter(|node| node.has_tag_name("tr")));
    rows.map(|row| row.children().filter(Node::is_element).map(text).collect()).collect()
}

/// Every figure of the text output is on the page.
#[track_caller]
pub(crate) fn says_as_much(page: &str, plain: &str) {
    let document = Document::parse(body(page)).expect("every element is closed");
    let figures = |text: &str| {
        let words = text.split_whitespace().filter(|word| word.contains(|c: char| c.is_ascii_digit()));
        // The numbers of a list stand in no text of a page.
        let words = words.filter(|word| word.strip_suffix('.').is_none_or(|number| number.len() != 1));
        words.map(|word| word.trim_matches(|c: char| !c.is_alphanumeric()).to_owned()).collect_vec()
    };
    let there = figures(&text(document.root_element()));
    let missing = figures(plain).into_iter().filter(|figure| !there.contains(figure)).collect_vec();
    assert!(missing.is_empty(), "{missing:?}");
}
