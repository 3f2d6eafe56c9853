//! `lidladder fallbacks` as a fitter, a program and a graph tool meet it.

mod dot;
mod page;
mod svg;

use crate::support::{Folder, eighty_plain_columns, once, root};
use rstest::rstest;
use serde_json::{Value, json};
use std::fs;

/// Four models, two of them in a circle, with parallel rules, a stop and every form of a size.
const SMALL: &str = r#"schema: 1
edges:
  - {from: plover-long, reason: too-oval, to: plover-middle, size: same, note: "first choice"}
  - {from: plover-long, reason: too-noisy, to: plover-wide, note: "quieter"}
  - {from: plover-long, reason: too-oval, to: plover-wide, size: up, note: "second choice"}
  - {from: plover-middle, reason: too-round, to: plover-long, size: M, note: "back"}
  - {from: plover-middle, reason: turns-on-head, to: plover-wide, size: down, note: "off with it"}
"#;

/// A shop with four models and these rules, in `profiles`.
fn shop(rules: &str) -> Folder {
    let folder = Folder::with_profiles();
    fs::remove_dir_all(folder.path().join("profiles/helmets")).expect("it can be removed");
    fs::create_dir(folder.path().join("profiles/helmets")).expect("it can be made");
    folder.write("profiles/helmets/plover.yaml", plover());
    folder.write("profiles/fallbacks.yaml", rules);
    folder
}

fn plover() -> String {
    fs::read_to_string(root().join("tests/rules/base/helmets/plover.yaml")).expect("the fixture is there")
}

/// What a command prints about the small shop, with its exit code.
fn small(options: &str) -> (String, i32) {
    let run = shop(SMALL).run(&format!("fallbacks --profiles profiles {options}"));
    assert_eq!(run.stderr, "");
    (run.stdout, run.status)
}

const CAUTIONS: &str = "
CAUTIONS
  - A rule is a habit of the shop and no fit check: only the helmet on the head
    tells.
  - A helmet that rolls off, turns on the head, or whose strap can't hold is out
    at once, whatever the pads.
  - The maker's instructions and the local law come first.
";

#[rstest]
#[case::all(
    "",
    "\
RULES: what the shop tries next, and why

Plover Long (plover-long, full-face)
  geometric
    too-oval            -> Plover Middle, same size: first choice
    too-oval            -> Plover Wide, a size up: second choice
  experience
    too-noisy           -> Plover Wide, any size: quieter

Plover Middle (plover-middle, full-face)
  geometric
    too-round           -> Plover Long, in M: back
  stop: out at once in this model and size, whatever the pads
    turns-on-head       -> Plover Wide, a size down: off with it

Plover Round (plover-round, full-face)
  no rule

Plover Wide (plover-wide, full-face)
  no rule

4 models, 5 rules, 4 reasons, 1 circle
  circle: 2 models lead to each other, as in Plover Long -> Plover Middle ->
    Plover Long
"
)]
#[case::one_model(
    "--from plover-middle",
    "\
FROM Plover Middle (plover-middle)
  geometric
    too-round           -> Plover Long, in M: back
  stop: out at once in this model and size, whatever the pads
    turns-on-head       -> Plover Wide, a size down: off with it

TO Plover Middle
  geometric
    too-oval            <- Plover Long, same size: first choice

3 models, 3 rules, 3 reasons, 1 circle
  circle: 2 models lead to each other, as in Plover Long -> Plover Middle ->
    Plover Long
"
)]
#[case::reasons(
    "--if too-noisy --if too-round",
    "\
RULES for too-noisy or too-round

Plover Long (plover-long, full-face)
  experience
    too-noisy           -> Plover Wide, any size: quieter

Plover Middle (plover-middle, full-face)
  geometric
    too-round           -> Plover Long, in M: back

3 models, 2 rules, 2 reasons, 0 circles
"
)]
#[case::ways(
    "--from plover-long --if too-oval --if turns-on-head",
    "\
WAYS from Plover Long (plover-long), if too-oval, then turns-on-head
  too-oval -> Plover Middle, same size: first choice
    turns-on-head -> Plover Wide, a size down: off with it
      (a stop: Plover Middle is out at once in this size, whatever the pads)
  too-oval -> Plover Wide, a size up: second choice
    turns-on-head: the shop has no rule for it here

3 models, 3 rules, 2 reasons, 0 circles
"
)]
fn a_page_says_what_was_asked(#[case] options: &str, #[case] page: &str) {
    assert_eq!(small(options), (format!("{page}{CAUTIONS}"), 0));
}

#[rstest]
#[case::no_such_rule("--if ear-pinch", "RULES for ear-pinch\n\nNo rule: the shop has written nothing down for this.\n")]
#[case::stranger(
    "--from plover-round",
    "FROM Plover Round (plover-round)\n  no rule\n\nTO Plover Round\n  no rule\n\n\
     No rule: the shop has written nothing down for this.\n"
)]
#[case::silent_at_once(
    "--from plover-round --if too-round",
    "WAYS from Plover Round (plover-round), if too-round\n  too-round: the shop has no rule for it here\n\n\
     No rule: the shop has written nothing down for this.\n"
)]
#[case::silent_later(
    "--from plover-long --if too-noisy --if too-noisy",
    "WAYS from Plover Long (plover-long), if too-noisy, then too-noisy\n  too-noisy -> Plover Wide, any size: quieter\n    \
     too-noisy: the shop has no rule for it here\n\n2 models, 1 rule, 1 reason, 0 circles\n"
)]
fn silence_is_told_and_is_a_finding(#[case] options: &str, #[case] page: &str) {
    assert_eq!(small(options), (format!("{page}{CAUTIONS}"), 1));
}

#[rstest]
#[case("")]
#[case("--from wexmarsh-one")]
#[case("--if too-round")]
#[case("--if too-round --if too-oval --if too-noisy --if over-budget --if spectacles-clash --if loose-front-to-back")]
#[case("--from haspenfell-plum --if too-round --if too-round --if too-oval --if over-budget")]
fn a_page_is_plain_and_narrow(#[case] options: &str) {
    let run = once(&format!("fallbacks {options}"));
    eighty_plain_columns(run.good());
}

#[test]
fn a_program_reads_the_ways_as_lists_of_rules() {
    let (text, status) = small("--from plover-long --if too-oval --if turns-on-head --format json");
    let document: Value = serde_json::from_str(&text).expect("the output is JSON");
    assert_eq!(status, 0);
    assert_eq!(document["from"], "plover-long");
    assert_eq!(document["if"], json!(["too-oval", "turns-on-head"]));
    let ways = json!([
        {"rules": [1, 5], "end": "arrived", "silent_for": null},
        {"rules": [3], "end": "silent", "silent_for": "turns-on-head"}
    ]);
    assert_eq!(document["ways"], ways);
}

#[test]
fn a_program_reads_every_rule_as_the_file_has_it() {
    let document: Value = serde_json::from_str(&small("--format json").0).expect("the output is JSON");
    assert_eq!(document["ways"], Value::Null);
    assert_eq!(document["circles"], json!([{"models": ["plover-long", "plover-middle"], "round_trip": [1, 4]}]));
    let rule = |at: usize, key: &str| document["rules"][at][key].clone();
    let sizes: Vec<Value> = (0..5).map(|at| rule(at, "size")).collect();
    assert_eq!(sizes, [json!("same"), json!(null), json!("up"), json!("M"), json!("down")]);
    let natures: Vec<Value> = (0..5).map(|at| rule(at, "nature")).collect();
    assert_eq!(natures, ["geometric", "experience", "geometric", "geometric", "stop"]);
}

#[rstest]
#[case::no_rules("schema: 1\nedges: []\n", "4 models", 1)]
#[case::itself(
    "schema: 1\nedges:\n  - {from: plover-long, reason: too-oval, to: plover-long, size: up, note: n}\n",
    "4 models, 1 rule, 0 circles",
    0
)]
fn an_odd_graph_is_shown_in_every_format(#[case] rules: &str, #[case] words: &str, #[case] status: i32) {
    let folder = shop(rules);
    let run = |format: &str| folder.run(&format!("fallbacks --profiles profiles --format {format}"));
    for format in ["text", "json", "dot", "svg"] {
        assert_eq!((run(format).status, run(format).stderr.as_str()), (status, ""), "{format}");
    }
    assert!(run("svg").stdout.contains(words), "{}", run("svg").stdout);
}
