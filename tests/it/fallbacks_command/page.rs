//! The page, read by an independent XML reader.

use super::svg::crowd;
use super::{SMALL, shop};
use crate::markup::{is_sound, named, parsed, sections, words};
use crate::support::once;
use itertools::Itertools;
use roxmltree::{Document, Node};
use rstest::rstest;
use serde_json::Value;
use std::collections::BTreeSet;

/// From, reason and to of every rule of the document, as the drawing marks them.
fn rules(document: &Value) -> Vec<String> {
    let rules = document["rules"].as_array().expect("rules");
    let word = |rule: &Value, key: &str| rule[key].as_str().expect("a word").to_owned();
    rules.iter().map(|rule| ["from", "reason", "to"].map(|key| word(rule, key)).join(" ")).sorted().collect()
}

#[rstest]
#[case("")]
#[case("--from wexmarsh-one")]
#[case("--if too-noisy --if over-budget")]
#[case("--from wexmarsh-one --if too-round --if too-oval")]
fn every_rule_is_drawn_and_told_once(#[case] options: &str) {
    let run = once(&format!("fallbacks {options} --format html"));
    is_sound(run.good());
    let page = parsed(&run.stdout);
    let document = once(&format!("fallbacks {options} --format json")).document();
    let drawn = page.descendants().filter_map(|node| node.attribute("data-edge")).map(str::to_owned).sorted();
    assert_eq!(drawn.collect_vec(), rules(&document));
    let known = document["rules"].as_array().expect("rules");
    let name = |id: &Value| {
        let mut models = document["models"].as_array().expect("models").iter();
        models.find(|model| model["id"] == *id).and_then(|model| model["name"].as_str()).expect("a name").to_owned()
    };
    let expected = known.iter().map(|rule| {
        let [reason, note] = ["reason", "note"].map(|key| rule[key].as_str().expect("a word").to_owned());
        (format!("If {} fails", name(&rule["from"])), reason, name(&rule["to"]), note)
    });
    assert_eq!(told(&page).into_iter().sorted().collect_vec(), expected.sorted().collect_vec());
}

/// Every rule in words: whose table it stands in, its reason, its target and its note.
fn told(page: &Document<'_>) -> Vec<(String, String, String, String)> {
    let rows = named(page, "table").flat_map(|table| {
        let from = table.attribute("aria-label").expect("the table has a name").to_owned();
        let rows = table.descendants().filter(|node| node.has_tag_name("tr"));
        rows.map(move |row| (from.clone(), row.children().filter(Node::is_element).collect_vec()))
    });
    let rules = rows.filter_map(|(from, cells)| {
        let [reason, target, note] = cells[..] else { return None };
        let (reason, target) = (words(reason), words(target));
        let (target, _size) = target.rsplit_once(',')?;
        Some((from, reason.split(' ').next()?.to_owned(), target.trim().to_owned(), words(note)))
    });
    rules.collect()
}

#[test]
fn ways_come_first_and_say_where_they_end() {
    let run = shop(SMALL)
        .run("fallbacks --profiles profiles --from plover-long --if too-oval --if turns-on-head --format html");
    is_sound(run.good());
    let page = parsed(&run.stdout);
    assert_eq!(sections(&page), ["Ways", "Every rule", "Cautions"]);
    let ways = named(&page, "section").next().map(words).expect("the ways");
    assert_eq!(
        ways,
        "Ways too-oval → Plover Middle, same size: first choice turns-on-head → Plover Wide, a size down: off with it \
         (a stop: Plover Middle is out at once in this size, whatever the pads) too-oval → Plover Wide, a size up: second \
         choice turns-on-head: the shop has no rule for it here."
    );
}

#[test]
fn a_rule_that_stands_twice_has_two_marks() {
    let rules = SMALL.replace("to: plover-wide, size: up", "to: plover-middle, size: up");
    let run = shop(&rules).run("fallbacks --profiles profiles --format html");
    is_sound(run.good());
    let page = parsed(&run.stdout);
    let marks: BTreeSet<&str> = page.descendants().filter_map(|node| node.attribute("data-edge")).collect();
    assert_eq!(marks.len(), 5);
    assert!(
        marks.contains("plover-long too-oval plover-middle") && marks.contains("plover-long too-oval plover-middle 2")
    );
}

#[rstest]
#[case::no_rule("--if ear-pinch")]
#[case::a_stranger("--from plover-round")]
#[case::silent("--from plover-round --if too-round")]
fn silence_is_told_and_is_a_finding(#[case] options: &str) {
    let run = shop(SMALL).run(&format!("fallbacks --profiles profiles {options} --format html"));
    assert_eq!((run.status, run.stderr.as_str()), (1, ""));
    is_sound(&run.stdout);
    assert!(run.stdout.contains("No rule: the shop has written nothing down for this."));
}

#[test]
fn a_page_comes_without_a_drawing_that_nobody_could_read() {
    let all = (0..60).flat_map(|from| (0..60).filter(move |to| *to != from).map(move |to| (from, to)));
    let run = crowd(15, all).run("fallbacks --profiles profiles --format html");
    is_sound(run.good());
    let page = parsed(&run.stdout);
    assert_eq!(named(&page, "svg").count(), 0);
    assert!(run.stdout.contains("There is no drawing: "));
    assert_eq!(told(&page).len(), 60 * 59);
}

#[test]
fn names_are_texts_and_nothing_else() {
    let folder = shop(&SMALL.replace("first choice", "<i>&'"));
    folder.edit("profiles/helmets/plover.yaml", "name: Plover Long", r#"name: '<b>&"'"#);
    let run = folder.run("fallbacks --profiles profiles --format html");
    is_sound(run.good());
    let page = parsed(&run.stdout);
    assert!(named(&page, "td").any(|cell| words(cell) == "<i>&'"));
    assert!(named(&page, "i").next().is_none());
    assert!(named(&page, "table").any(|table| table.attribute("aria-label") == Some("If <b>&\" fails")));
    assert_eq!(run, folder.run("fallbacks --profiles profiles --format html"), "the same bytes again");
}
