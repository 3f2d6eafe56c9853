//! The plan as a page and as a tree.

use crate::markup::{is_one_whole_page, named, parsed, titled, words};
use crate::support::{Folder, once};
use itertools::Itertools;
use rstest::rstest;
use serde_json::Value;

const PLANS: [&str; 4] = [
    "plan -c 57.5cm",
    "plan -c 64cm -l 200 -b 172",
    "plan -c 55cm -l 205 -b 138 -w 120",
    "plan -c 57.5cm --lead shop-only",
];

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

fn list(value: &Value) -> &[Value] {
    value.as_array().unwrap_or_else(|| panic!("{value} is no list"))
}

/// A step of the document, and the branches that one customer in 200 reaches.
struct Step<'d> {
    node: &'d Value,
    /// The reasons, and the number of the step behind them.
    onward: Vec<(String, Option<usize>)>,
}

/// The steps that are shown, in the order of the page.
fn steps(document: &Value) -> Vec<Step<'_>> {
    fn add<'d>(steps: &mut Vec<Step<'d>>, node: &'d Value) -> usize {
        let at = steps.len();
        steps.push(Step { node, onward: Vec::new() });
        for branch in list(&node["on"]) {
            // The document's figures have four decimals.
            if number(&node["reach_probability"]) * number(&branch["probability"]) < 0.005 {
                continue;
            }
            let reasons = match branch["reason"].as_str() {
                Some("else") => list(&branch["reasons"]).iter().filter_map(Value::as_str).join(" "),
                one => one.unwrap_or_default().to_owned(),
            };
            let next = branch["next"].is_object().then(|| add(steps, &branch["next"]));
            steps[at].onward.push((reasons, next));
        }
        at + 1
    }
    let mut steps = Vec::new();
    if document["plan"]["first"].is_object() {
        add(&mut steps, &document["plan"]["first"]);
    }
    steps
}

/// Every step once, with its links to the steps behind what may be heard, and every such edge once in the tree.
#[rstest]
fn the_tree_and_the_cards_have_every_step_and_edge_once(#[values(0, 1, 2, 3)] plan: usize) {
    let run = once(&format!("{} --format html", PLANS[plan]));
    assert!(run.status < 2 && run.stderr.is_empty());
    is_one_whole_page(&run.stdout);
    let page = parsed(&run.stdout);
    let document = once(&format!("{} --format json", PLANS[plan])).document();
    let steps = steps(&document);
    let cards = named(&page, "article").collect_vec();
    assert_eq!(cards.len(), steps.len());
    let edges = steps
        .iter()
        .zip(1..)
        .flat_map(|(step, number)| step.onward.iter().map(move |(reasons, _)| format!("{number} {reasons}")));
    let drawn = titled(page.root_element(), "data-edge");
    assert_eq!(drawn.keys().cloned().collect_vec(), edges.sorted().collect_vec());
    let boxes = titled(page.root_element(), "data-step");
    assert_eq!(boxes.len(), steps.len());
    for ((card, step), at) in cards.iter().zip(&steps).zip(1..) {
        let size = step.node["size"].as_str().expect("a label");
        let heading = words(card.children().find(|node| node.has_tag_name("h3")).expect("a heading"));
        assert!(heading.starts_with(&format!("{at}. ")) && heading.ends_with(&format!(" in {size}")), "{heading}");
        assert!(boxes[&at.to_string()].starts_with(&heading), "{heading}");
        let links = card.descendants().filter(|node| node.attribute("class") == Some("next"));
        let links = links.flat_map(|node| node.descendants()).filter_map(|node| node.attribute("href")).collect_vec();
        let wanted = step.onward.iter().filter_map(|(_, to)| to.map(|to| format!("#step-{to}"))).collect_vec();
        assert_eq!(links, wanted, "{heading}");
        assert_eq!(titled(*card, "data-zone").len(), 5, "{heading}");
        let said = words(*card);
        let mean = &step.node["head_mean"];
        assert!(said.contains(&format!("shape index {:.1}", number(&mean["shape_index"]))), "{said} {mean}");
        for aside in
            list(&step.node["beyond_geometry"]).iter().filter(|aside| number(&aside["fit_probability"]) >= 0.05)
        {
            assert!(said.contains(aside["note"].as_str().expect("a note")), "{said} {aside}");
        }
    }
}

/// The words of the page are those of the text; the figures of its ranking those of the document.
#[rstest]
fn the_page_says_what_the_text_says(#[values(0, 1, 2)] at: usize) {
    let run = once(&format!("{} --format html", PLANS[at]));
    let page = parsed(&run.stdout);
    let plain = once(PLANS[at]).stdout.split_whitespace().join(" ");
    let plan = named(&page, "section").find(|node| node.attribute("id") == Some("plan")).expect("the plan");
    for paragraph in plan.descendants().filter(|node| node.has_tag_name("p")).map(words) {
        assert!(plain.contains(&paragraph), "{paragraph}");
    }
    let document = once(&format!("{} --format json", PLANS[at])).document();
    let ranking = named(&page, "section").find(|node| node.attribute("id") == Some("ranking")).expect("the ranking");
    let rows = ranking.descendants().filter(|node| node.has_tag_name("tr")).skip(1).collect_vec();
    assert_eq!(rows.len(), list(&document["ranking"]).len().min(10));
    for (row, ranked) in rows.iter().zip(list(&document["ranking"])) {
        let fits = format!("{:.0} %", 100.0 * number(&ranked["fit_probability"]));
        let cells = row.children().filter(|node| node.is_element()).map(words).collect_vec();
        assert!(cells[0].ends_with(&format!(" in {}", ranked["size"].as_str().expect("a label"))), "{cells:?}");
        assert!(cells[2] == fits || fits == "0 %", "{cells:?} {fits}");
    }
}

/// All that the text says to bring is to be brought by the page, too.
#[test]
fn every_pad_to_bring_is_listed() {
    let run = once(&format!("{} --format html", PLANS[0]));
    let page = parsed(&run.stdout);
    let bring = named(&page, "section").find(|node| node.attribute("id") == Some("bring")).map(words).expect("pads");
    let document = once(&format!("{} --format json", PLANS[0])).document();
    for step in steps(&document) {
        for (zone, pads) in step.node["bring_pads"].as_object().expect("a group") {
            let pads = list(pads).iter().map(|pad| number(pad).to_string()).collect_vec();
            assert!(bring.contains(zone) && pads.iter().all(|pad| bring.contains(pad)), "{zone} {pads:?} in {bring}");
        }
    }
}

#[rstest]
fn the_tree_stands_by_itself(#[values(0, 1, 2, 3)] at: usize) {
    let run = once(&format!("{} --format svg", PLANS[at]));
    assert!(run.status < 2 && run.stderr.is_empty());
    let picture = parsed(&run.stdout);
    let document = once(&format!("{} --format json", PLANS[at])).document();
    assert_eq!(titled(picture.root_element(), "data-step").len(), steps(&document).len());
    assert!(!run.stdout.contains("href") && run.stdout.starts_with("<svg xmlns="));
}

#[test]
fn names_and_notes_are_no_markup() {
    let folder = Folder::with_profiles();
    folder.edit("profiles/helmets/wexmarsh.yaml", "name: Wexmarsh One", "name: \"<i>&</svg>\"");
    folder.edit("profiles/fallbacks.yaml", "the quietest we have", "<script>&\u{a0}\\\"");
    for format in ["svg", "html"] {
        let run = folder.run(&format!("plan -c 57.5cm --profiles profiles --format {format}"));
        let page = parsed(run.good());
        assert!(!page.descendants().any(|node| ["i", "script"].contains(&node.tag_name().name())), "{format}");
        assert!(words(page.root_element()).contains("1. <i>&</svg> in M"), "{format}");
    }
}

/// An explained step has the words and figures of the text on its page.
#[rstest]
#[case("plan -c 57.5cm --why")]
#[case("plan -c 57.5cm --why=loose-sides")]
#[case("plan -c 57.5cm --why=too-noisy")]
#[case("plan -c 57.5cm --why=cheeks-squeeze")]
fn an_explained_step_says_what_the_text_says(#[case] line: &str) {
    let run = once(&format!("{line} --format html"));
    assert!(run.status < 2 && run.stderr.is_empty());
    is_one_whole_page(&run.stdout);
    let page = parsed(&run.stdout);
    let plain = once(line).stdout.split_whitespace().join(" ");
    let said = ["dd", "li", "p"].into_iter().flat_map(|name| named(&page, name));
    for node in said.filter(|node| node.attribute("class") != Some("caption")) {
        let words = words(node);
        // What the text says by its columns, the page says in words.
        let words = words.trim_start_matches("If it fits: ").trim_start_matches("on arriving here: ");
        let words = words.trim_start_matches("that one fits: ").trim_start_matches("Look here: ");
        let is_own = ["The plan begins", "for one head", "Rarer reports", "There is no"]
            .iter()
            .any(|own| words.starts_with(own));
        assert!(is_own || plain.contains(words), "{words}");
    }
    let cells = named(&page, "td").map(words).filter(|cell| !cell.is_empty());
    cells.for_each(|cell| assert!(plain.contains(&cell), "{cell}"));
    let zones = titled(page.root_element(), "data-zone").len();
    assert!(zones == 5 || run.status == 1, "{zones}");
    assert!(once(&format!("{line} --format svg")).stdout.starts_with("<svg xmlns="));
}
