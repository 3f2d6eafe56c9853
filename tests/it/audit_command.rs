//! `lidladder fallbacks audit` and `fallbacks propose` as a shop and as a program meet them.

mod page;

use crate::support::{Folder, eighty_plain_columns, once};
use rstest::rstest;
use serde_json::Value;

const AUDIT: &str = "fallbacks audit --customers 20000";
const PROPOSE: &str = "fallbacks propose --customers 20000";

fn document(line: &str) -> Value {
    once(&format!("{line} --format json")).document()
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

fn list(value: &Value) -> &[Value] {
    value.as_array().unwrap_or_else(|| panic!("{value} is no list"))
}

#[rstest]
#[case(AUDIT)]
#[case("fallbacks audit --customers 1000 --keep-type --steps 2")]
#[case("fallbacks audit --customers 1000 --measured breadth,circumference --population men")]
fn a_page_has_its_parts_in_eighty_plain_columns(#[case] line: &str) {
    let run = once(line);
    assert!(run.status == 0 || run.status == 1, "{}", run.stderr);
    assert_eq!(run.stderr, "", "nobody watches, so nothing is told");
    eighty_plain_columns(&run.stdout);
    let mut rest = run.stdout.as_str();
    for part in ["CUSTOMERS ", "\nWHAT THEY TAKE", "\nWHAT WOULD HELP MOST\n", "\nRULES THAT MISLEAD\n", "\nCAUTIONS\n"]
    {
        rest = rest.split_once(part).unwrap_or_else(|| panic!("{part:?} is missing from {rest}")).1;
    }
}

/// The demo shop has a rule from habit that leads from a flip-front which is too round to a still rounder one.
#[test]
fn a_planted_bad_rule_is_found_and_the_words_say_why() {
    let run = once(AUDIT);
    assert_eq!(run.status, 1, "there is something to look at");
    let page = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    let told = page.split_once("Wexmarsh Two Flip, too-round -> Haspenfell Lift (\"").expect("the rule is named").1;
    let told = told.split_once("saves").expect("it says what another rule would save").0;
    for words in ["points the wrong way", "is rounder (81.5 against 79)", "Lantreth Longways would fit"] {
        assert!(told.contains(words), "{words:?} is missing from {told}");
    }
    let document = document(AUDIT);
    let misleading = list(&document["misleading"]).iter();
    let planted = misleading
        .filter(|rule| rule["from"] == "wexmarsh-two-flip" && rule["reason"] == "too-round")
        .collect::<Vec<_>>();
    assert_eq!(planted.len(), 1);
    assert_eq!(planted[0]["dropped"], "haspenfell-lift");
    assert!(number(&planted[0]["saves"]["value"]) > number(&planted[0]["saves"]["error"]));
}

#[test]
fn the_best_five_help_customers_who_had_no_part_in_them() {
    let document = document(AUDIT);
    assert_eq!(list(&document["together"]).len(), 5);
    let saves = &document["verified"]["saves"];
    assert!(number(&saves["value"]) > number(&saves["error"]), "{saves}");
    let in_all = |part: &str| number(&document["verified"][part]["minutes_in_all"]["value"]);
    assert!((in_all("before") - in_all("after") - number(&saves["value"])).abs() < 0.002, "paired");
    let plan = number(&document["computed_plan"]["minutes_in_all"]["value"]);
    assert!(number(&document["shop_rules"]["minutes_in_all"]["value"]) > plan, "no rules beat the plan here");
}

#[test]
fn every_rule_is_somewhere() {
    let document = document(AUDIT);
    let rules = list(&document["rules"]).len() + list(&document["unused_rules"]).len();
    let catalogue = include_str!("../../profiles/fallbacks.yaml");
    let all = catalogue.matches("- {from:").count();
    assert_eq!(rules as u64 + document["unweighed_rules"].as_u64().expect("a count"), all as u64);
}

#[test]
fn targets_keep_their_type_where_that_is_asked() {
    let document = document("fallbacks audit --customers 1000 --keep-type --steps 2");
    let flips = ["wexmarsh-two-flip", "lantreth-hinge", "haspenfell-lift"];
    for change in list(&document["changes"]) {
        let (from, put) = (change["from"].as_str().expect("an id"), change["put"].as_str());
        if let Some(put) = put {
            assert_eq!(flips.contains(&from), flips.contains(&put), "{change}");
        }
    }
}

/// A proposal is a file that the program takes, finds in order, and that serves better than the shop's.
#[test]
fn a_proposal_is_a_graph_that_serves_better() {
    let run = once(PROPOSE);
    assert_eq!((run.status, run.stderr.as_str()), (0, ""));
    let folder = Folder::with_profiles();
    folder.write("profiles/fallbacks.yaml", &run.stdout);
    let check = folder.run("check profiles");
    assert!(!check.stdout.contains("error["), "{}", check.stdout);
    assert!(check.stdout.matches("warning[").count() <= 2, "as few doubts as the shop's own: {}", check.stdout);
    let audit = folder.run("fallbacks audit --customers 4000 --seed 2 --profiles profiles --format json").document();
    let shops = document("fallbacks audit --customers 4000 --seed 2");
    let in_all = |document: &Value| number(&document["shop_rules"]["minutes_in_all"]["value"]);
    assert!(in_all(&audit) < in_all(&shops) - 2.0, "{} and {}", in_all(&audit), in_all(&shops));
}

#[test]
fn a_proposal_keeps_what_geometry_cannot_tell() {
    let run = once(PROPOSE);
    let own = include_str!("../../profiles/fallbacks.yaml");
    let kept = |text: &str, reason: &str| text.matches(&format!("reason: {reason},")).count();
    for reason in ["too-noisy", "over-budget", "too-heavy", "chin-touches-bar", "rolls-off-backward", "ear-pinch"] {
        assert_eq!(kept(&run.stdout, reason), kept(own, reason), "{reason}");
    }
    assert!(run.stdout.contains("note: \"the quietest we have\""));
    let document = document(PROPOSE);
    assert_eq!(document["yaml"].as_str(), Some(run.stdout.as_str()), "the document holds the same file");
    let rules = list(&document["rules"]);
    assert!(rules.iter().all(|rule| (0.0..=1.0).contains(&number(&rule["fits"]))));
    assert!(rules.iter().any(|rule| rule["shop_has_it"] == true));
}

#[rstest]
#[case("fallbacks audit --measured tape", "unknown-word")]
#[case("fallbacks audit --population nobody", "unknown-population")]
#[case("fallbacks audit --measured circumferense", "circumference")]
#[case("fallbacks audit --customers 10", "1000")]
#[case("fallbacks propose --customers many", "many")]
fn what_makes_no_sense_is_told(#[case] line: &str, #[case] word: &str) {
    let run = once(line);
    assert_eq!((run.status, run.stdout.as_str()), (2, ""));
    assert!(run.stderr.contains(word), "{}", run.stderr);
}
