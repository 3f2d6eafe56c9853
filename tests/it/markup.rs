//! Pages and pictures, read by an independent XML reader.

use itertools::Itertools;
use roxmltree::{Document, Node};
use std::collections::{BTreeMap, BTreeSet};

/// A page without the kind of document, which is no XML; a picture as it is.
#[track_caller]
pub(crate) fn parsed(text: &str) -> Document<'_> {
    let body = text.strip_prefix("<!DOCTYPE html>\n").unwrap_or(text);
    Document::parse(body).unwrap_or_else(|fault| panic!("{fault}: every element is closed\n{text}"))
}

pub(crate) fn named<'d>(page: &'d Document<'_>, name: &'static str) -> impl Iterator<Item = Node<'d, 'd>> {
    page.descendants().filter(move |node| node.has_tag_name(name) || node.tag_name().name() == name)
}

/// All words within a node, each space one.
pub(crate) fn words(node: Node<'_, '_>) -> String {
    let texts = node.descendants().filter(Node::is_text).filter_map(|node| node.text());
    texts.collect::<String>().split_whitespace().join(" ")
}

/// The same with a space between what stands in different nodes.
fn spaced(node: Node<'_, '_>) -> String {
    let texts = node.descendants().filter(Node::is_text).filter_map(|node| node.text());
    texts.collect_vec().join(" ").split_whitespace().join(" ")
}

/// What a node says when one points at it.
#[track_caller]
pub(crate) fn title(node: Node<'_, '_>) -> String {
    let title = node.children().find(|child| child.tag_name().name() == "title");
    title.and_then(|title| title.text()).unwrap_or_else(|| panic!("{node:?} has no title")).to_owned()
}

/// The nodes of some attribute with their titles; each value once within the node that is searched.
#[track_caller]
pub(crate) fn titled(within: Node<'_, '_>, attribute: &str) -> BTreeMap<String, String> {
    let mut titles = BTreeMap::new();
    for node in within.descendants().filter(|node| node.has_attribute(attribute)) {
        let value = node.attribute(attribute).unwrap_or_default().to_owned();
        assert!(titles.insert(value.clone(), title(node)).is_none(), "{attribute}={value} stands twice");
    }
    titles
}

/// Nothing runs, nothing comes from elsewhere, every link leads to a place on the page, and headings are in order.
#[track_caller]
pub(crate) fn is_one_whole_page(text: &str) {
    let page = parsed(text);
    for name in ["script", "img", "link", "iframe", "object"] {
        assert_eq!(named(&page, name).count(), 0, "{name}");
    }
    let attributes = page.descendants().flat_map(|node| node.attributes()).collect_vec();
    assert!(attributes.iter().all(|attribute| !attribute.name().starts_with("on")));
    assert!(!text.contains("://") && !text.contains("@import"), "nothing comes from elsewhere");
    let places = attributes.iter().filter(|attribute| attribute.name() == "id").map(|id| id.value()).collect_vec();
    let known = places.iter().copied().collect::<BTreeSet<_>>();
    assert_eq!(places.len(), known.len(), "a place has one name: {places:?}");
    for attribute in &attributes {
        let value = attribute.value();
        let target = match attribute.name() {
            "href" => value.strip_prefix('#'),
            _ => value.strip_prefix("url(#").and_then(|rest| rest.strip_suffix(')')),
        };
        assert!(target.is_none_or(|target| known.contains(target)), "{value} leads nowhere");
        assert!(attribute.name() != "href" || target.is_some(), "{value} leads away");
    }
    assert_eq!(page.root_element().attribute("lang"), Some("en"));
    let policy = named(&page, "meta").find_map(|meta| meta.attribute("content").filter(|text| text.contains("-src")));
    assert_eq!(policy, Some("default-src 'none'; style-src 'unsafe-inline'"));
    let levels = page.descendants().filter_map(|node| node.tag_name().name().strip_prefix('h')?.parse::<u8>().ok());
    let levels = levels.collect_vec();
    assert_eq!((levels[0], levels.iter().filter(|level| **level == 1).count()), (1, 1), "one heading of all");
    assert!(levels.iter().tuple_windows().all(|(before, after)| *after <= before + 1), "{levels:?}");
    assert!(!text.contains("NaN") && !text.contains("inf "), "figures are numbers");
    let regions = page.descendants().filter(|node| node.attribute("role") == Some("region")).collect_vec();
    assert!(regions.iter().map(|node| node.attribute("aria-label")).all_unique(), "regions have names of their own");
    assert!(regions.iter().all(|node| node.attribute("tabindex") == Some("0")));
    for picture in named(&page, "svg") {
        let class = picture.attribute("class").expect("a kind");
        assert!(text.contains(&format!("svg.{class}{{")), "the style of {class} is there");
        let said = picture.children().filter(|node| matches!(node.tag_name().name(), "title" | "desc"));
        assert_eq!(said.filter(|node| node.text().is_some_and(|words| words.len() > 10)).count(), 2);
    }
    for mark in ["header", "main", "footer"] {
        assert!(named(&page, mark).count() <= 1, "{mark}");
    }
    assert_eq!(named(&page, "main").count(), 1);
}

/// The points of a path of straight lines, part by part.
pub(crate) fn points(path: &str) -> Vec<Vec<[f64; 2]>> {
    let point = |text: &str| {
        let (x, y) = text.split_once(' ').unwrap_or_else(|| panic!("{text:?} is no point"));
        [x, y].map(|number| number.parse().unwrap_or_else(|_| panic!("{number:?} is no number")))
    };
    let part = |part: &str| part.split('L').map(point).collect_vec();
    path.split('Z').filter(|rest| !rest.is_empty()).map(|rest| part(rest.trim_start_matches('M'))).collect()
}

/// One whole page with sound tables, and the cautions at its end.
#[track_caller]
pub(crate) fn is_sound(page: &str) {
    is_whole_with_tables(page);
    assert_eq!(sections(&parsed(page)).last().map(String::as_str), Some("Cautions"));
}

/// One whole page, with rows of the same length in each table, and heads that say what they are for.
#[track_caller]
pub(crate) fn is_whole_with_tables(page: &str) {
    is_one_whole_page(page);
    let document = parsed(page);
    for table in named(&document, "table") {
        let heads = table.descendants().filter(|node| node.has_tag_name("th")).collect_vec();
        assert!(heads.iter().all(|head| matches!(head.attribute("scope"), Some("col" | "row" | "rowgroup"))));
        let rows = table.descendants().filter(|node| node.has_tag_name("tr")).map(cells).collect_vec();
        assert!(rows.len() > 1 && rows.iter().all_equal(), "{rows:?}");
    }
}

/// Cells of a row, those that span several counted so.
fn cells(row: Node<'_, '_>) -> usize {
    let span = |cell: Node<'_, '_>| cell.attribute("colspan").map_or(1, |span| span.parse().expect("a number"));
    row.children().filter(Node::is_element).map(span).sum()
}

/// The headings of the second rank.
pub(crate) fn sections(page: &Document<'_>) -> Vec<String> {
    named(page, "h2").map(words).collect()
}

/// The cells of the rows of a part of a page, by its id.
pub(crate) fn rows(page: &Document<'_>, part: &str) -> Vec<Vec<String>> {
    let part = page.descendants().find(|node| node.attribute("id") == Some(part)).expect("the part is there");
    let bodies = part.descendants().filter(|node| node.has_tag_name("tbody"));
    let rows = bodies.flat_map(|body| body.children().filter(|node| node.has_tag_name("tr")));
    rows.map(|row| row.children().filter(Node::is_element).map(words).collect()).collect()
}

/// Every figure of the text output is on the page.
#[track_caller]
pub(crate) fn says_as_much(page: &str, plain: &str) {
    let document = parsed(page);
    let figures = |text: &str| {
        let words = text.split_whitespace().filter(|word| word.contains(|c: char| c.is_ascii_digit()));
        // The numbers of a list stand in no text of a page.
        let words = words.filter(|word| word.strip_suffix('.').is_none_or(|number| number.len() != 1));
        words.map(|word| word.trim_matches(|c: char| !c.is_alphanumeric()).to_owned()).collect_vec()
    };
    let there = figures(&spaced(document.root_element()));
    let missing = figures(plain).into_iter().filter(|figure| !there.contains(figure)).collect_vec();
    assert!(missing.is_empty(), "{missing:?}");
}
