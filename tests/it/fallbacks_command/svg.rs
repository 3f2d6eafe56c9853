//! The drawing, read by an independent XML reader.

use super::{SMALL, plover, shop};
use crate::support::{Folder, once};
use roxmltree::{Document, Node};
use rstest::rstest;
use std::collections::BTreeSet;
use std::fs;

fn class<'a>(node: &Node<'a, '_>) -> &'a str {
    node.attribute("class").unwrap_or_default()
}

fn of_class<'a, 'i>(document: &'a Document<'i>, name: &str) -> Vec<Node<'a, 'i>> {
    document.descendants().filter(|node| class(node).split(' ').any(|word| word == name)).collect()
}

fn title(node: Node<'_, '_>) -> String {
    let title = node.children().find(|child| child.has_tag_name("title"));
    title.and_then(|title| title.text()).unwrap_or_else(|| panic!("{node:?} has no title")).to_owned()
}

fn number(node: &Node<'_, '_>, name: &str) -> f64 {
    node.attribute(name).and_then(|text| text.parse().ok()).unwrap_or_else(|| panic!("{name} of {node:?}"))
}

/// The rectangles of all labels and models, without what moves the whole drawing: left, top, right, bottom.
fn boxes(document: &Document<'_>) -> Vec<[f64; 4]> {
    let groups = ["label", "model"].into_iter().flat_map(|name| of_class(document, name));
    let rects = groups.filter_map(|group| group.children().find(|child| child.has_tag_name("rect")));
    let sides = rects.map(|rect| {
        let [x, y, w, h] = ["x", "y", "width", "height"].map(|name| number(&rect, name));
        [x, y, x + w, y + h]
    });
    sides.collect()
}

/// Every number of every path and attribute is one, and nothing is outside of the picture.
#[track_caller]
fn is_sound(svg: &str) {
    let document = Document::parse(svg).expect("the drawing is XML");
    let numbers = document.descendants().flat_map(|node| {
        let named = ["x", "y", "width", "height"].into_iter().filter_map(move |name| node.attribute(name));
        let path = node.attribute("d").into_iter().flat_map(|d| d.split(|c: char| c.is_ascii_alphabetic() || c == ' '));
        named.chain(path).filter(|text| !text.is_empty()).map(str::to_owned)
    });
    for text in numbers {
        let value: f64 = text.parse().unwrap_or_else(|_| panic!("{text:?} is no number"));
        assert!(value.is_finite() && text.split('.').nth(1).is_none_or(|decimals| decimals.len() == 1), "{text}");
    }
    // Rounding to one decimal may let edges meet.
    let boxes = boxes(&document);
    for (at, a) in boxes.iter().enumerate() {
        for b in &boxes[at + 1..] {
            let apart = |side: usize| a[side] + 0.2 >= b[side + 2] || b[side] + 0.2 >= a[side + 2];
            assert!(apart(0) || apart(1), "{a:?} and {b:?} overlap");
        }
    }
    let [width, height] = ["width", "height"].map(|name| number(&document.root_element(), name));
    assert!(
        boxes.iter().all(|[left, top, right, bottom]| {
            *left >= -0.1 && *top >= -0.1 && *right <= width && *bottom <= height
        })
    );
    for word in ["<script", "href", "url(", "@import", "NaN", "inf"] {
        assert!(!svg.contains(word), "{word}");
    }
}

#[test]
fn every_model_and_every_rule_is_there_once_with_its_title() {
    let run = once("fallbacks --format svg");
    let svg = run.good();
    is_sound(svg);
    let document = Document::parse(svg).expect("the drawing is XML");
    let models: BTreeSet<String> = of_class(&document, "model").into_iter().map(title).collect();
    assert_eq!((models.len(), of_class(&document, "model").len()), (16, 16));
    let rules: BTreeSet<String> = of_class(&document, "rule").into_iter().map(title).collect();
    assert_eq!((rules.len(), of_class(&document, "rule").len()), (86, 86));
    assert!(
        rules.contains("Wexmarsh One, if it is too noisy: try Lantreth Hush in the same size (the quietest we have)")
    );
    assert_eq!(title(document.root_element()), "What the shop tries next, and why");
    assert!(document.root_element().children().any(|child| child.has_tag_name("desc")));
    assert!(svg.contains("prefers-color-scheme:dark"));
}

#[test]
fn the_kinds_differ_without_colours() {
    let run = shop(SMALL).run("fallbacks --profiles profiles --format svg");
    let document = Document::parse(run.good()).expect("the drawing is XML");
    let strokes = |kind: &str| of_class(&document, kind).iter().filter(|node| class(node).contains("line")).count();
    // Two pieces a line, a sample a rule, and a sample in the legend: dashes and double lines come from the style.
    assert_eq!(strokes("geometric"), 2 * 3 + 3 + 1);
    assert_eq!(strokes("experience"), 1 + 1);
    assert_eq!(strokes("stop"), 2 + 1 + 1);
    assert_eq!(of_class(&document, "core").len(), strokes("stop"));
    assert!(run.stdout.contains(".line.experience{stroke-dasharray:"));
}

#[test]
fn names_are_texts_and_nothing_else() {
    let folder = shop(SMALL);
    folder.edit("profiles/helmets/plover.yaml", "name: Plover Long", r#"name: '<b>&"'"#);
    let run = folder.run("fallbacks --profiles profiles --format svg");
    is_sound(run.good());
    let document = Document::parse(run.good()).expect("the drawing is XML");
    assert!(document.descendants().any(|node| node.text() == Some(r#"<b>&""#)));
    assert!(!document.descendants().any(|node| node.has_tag_name("b")));
}

#[rstest]
#[case::one_model("--from wexmarsh-one", 25)]
#[case::a_reason("--if over-budget", 10)]
#[case::a_way("--from wexmarsh-one --if too-round --if too-oval", 4)]
fn a_question_draws_its_part_only(#[case] options: &str, #[case] rules: usize) {
    let run = once(&format!("fallbacks {options} --format svg"));
    is_sound(run.good());
    let document = Document::parse(run.good()).expect("the drawing is XML");
    assert_eq!(of_class(&document, "rule").len(), rules);
}

#[rstest]
#[case::no_rules("schema: 1\nedges: []\n")]
#[case::two_in_a_circle(
    "schema: 1\nedges:\n  - {from: plover-long, reason: too-oval, to: plover-wide, note: n}\n  \
     - {from: plover-wide, reason: too-round, to: plover-long, note: n}\n"
)]
#[case::itself(
    "schema: 1\nedges:\n  - {from: plover-long, reason: too-oval, to: plover-long, size: up, note: n}\n  \
     - {from: plover-long, reason: crown-gap, to: plover-long, size: L, note: n}\n  \
     - {from: plover-long, reason: turns-on-head, to: plover-wide, note: n}\n"
)]
fn an_odd_graph_is_drawn(#[case] rules: &str) {
    let run = shop(rules).run("fallbacks --profiles profiles --format svg");
    is_sound(&run.stdout);
    let document = Document::parse(&run.stdout).expect("the drawing is XML");
    assert_eq!(of_class(&document, "rule").len(), rules.matches("from:").count());
    assert_eq!(of_class(&document, "model").len(), 4);
}

/// So many models in groups of four, and the rules that are wanted between them.
pub(super) fn crowd(groups: usize, rules: impl Iterator<Item = (usize, usize)>) -> Folder {
    const FORMS: [&str; 4] = ["long", "middle", "wide", "round"];
    let folder = shop("");
    for group in 0..groups {
        let text = plover().replace("plover", &format!("p{group}")).replace("Plover", &format!("P{group}"));
        folder.write(&format!("profiles/helmets/p{group}.yaml"), text);
    }
    fs::remove_file(folder.path().join("profiles/helmets/plover.yaml")).expect("it can be removed");
    let id = |model: usize| format!("p{}-{}", model / 4, FORMS[model % 4]);
    let rules: String =
        rules.map(|(a, b)| format!("  - {{from: {}, reason: too-oval, to: {}, note: n}}\n", id(a), id(b))).collect();
    folder.write("profiles/fallbacks.yaml", format!("schema: 1\nedges:\n{rules}"));
    folder
}

#[test]
fn sixty_models_with_three_hundred_rules_are_drawn() {
    // Steps that are coprime to sixty reach every model, so that no two rules are the same.
    let rules = (0..60).flat_map(|from| [7, 11, 13, 29, 37].map(|step| (from, (from * from + from + step) % 60)));
    let run = crowd(15, rules).run("fallbacks --profiles profiles --format svg");
    is_sound(run.good());
    let document = Document::parse(run.good()).expect("the drawing is XML");
    assert_eq!(of_class(&document, "model").len(), 60);
    assert_eq!(of_class(&document, "rule").len(), 300);
}

#[test]
fn what_nobody_could_read_is_not_drawn() {
    let all = (0..60).flat_map(|from| (0..60).filter(move |to| *to != from).map(move |to| (from, to)));
    let folder = crowd(15, all);
    let run = folder.run("fallbacks --profiles profiles --format svg");
    assert_eq!((run.status, run.stdout.as_str()), (2, ""));
    assert!(run.stderr.starts_with("error[drawing-too-large]: "), "{}", run.stderr);
    assert_eq!(folder.run("fallbacks --profiles profiles --format dot").status, 0);
    is_sound(folder.run("fallbacks --profiles profiles --from p0-long --format svg").good());
}
