//! `plan --why`: a step explained, as a fitter and as a program meet it.

use super::{document, has, headings, is_plain_and_narrow, near, number, numbers, says_the_cautions, text};
use crate::support::{Run, lidladder, once};
use rstest::rstest;
use serde_json::Value;
use unicode_width::UnicodeWidthStr;

/// A plan with every kind of way: named reasons, an "else", rules beside a step.
const PLAN: &str = "plan -c 57.5cm";

fn why(reasons: &str) -> Value {
    // Without any it stands alone: `--why=` would name a reason of no letters.
    document(&format!("{PLAN} --why {reasons}"))
}

fn run(reasons: &str) -> std::sync::Arc<Run> {
    once(&format!("{PLAN} --why={reasons} --format json"))
}

fn words(page: &str) -> String {
    page.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The reason of the first branch of this kind that leads on: a named one, or the first behind "else".
fn reason(of_else: &str) -> String {
    let plan = document(PLAN);
    let branches = plan["plan"]["first"]["on"].as_array().expect("a list");
    let branch = branches.iter().find(|branch| (branch["reason"] == "else") == (of_else == "else"));
    let branch = branch.filter(|branch| !branch["next"].is_null()).expect("there is such a branch");
    if of_else == "else" { text(&branch["reasons"][0]).to_owned() } else { text(&branch["reason"]).to_owned() }
}

#[rstest]
#[case("plan -c 57.5cm --why", &["WHY", "INSTEAD", "HEADS", "CAUTIONS"])]
#[case("plan -c 57.5cm --why=loose-sides", &["WHY", "INSTEAD", "HEADS", "CAUTIONS"])]
#[case("plan -c 57.5cm --why too-noisy", &["WHY", "HEADS", "CAUTIONS"])]
#[case("plan --why", &["WHY", "INSTEAD", "HEADS", "CAUTIONS"])]
#[case("plan -c 57.5cm --type off-road --why", &["WHY", "INSTEAD", "HEADS", "CAUTIONS"])]
fn a_page_has_its_parts_in_eighty_plain_columns(#[case] line: &str, #[case] parts: &[&str]) {
    let run = once(line);
    let page = run.good();
    is_plain_and_narrow(page);
    assert_eq!(headings(page), parts);
    let (_, cautions) = page.split_once("\nCAUTIONS\n").expect("the last part");
    says_the_cautions(cautions);
}

/// Columns of figures stand below their headings, whatever the figures.
#[test]
fn columns_stand_below_their_headings() {
    let run = once("plan -c 57.5cm --type off-road --why");
    for (heading, last) in [("     model and size", "than the choice"), ("                      chance", "round")] {
        let head = run.stdout.lines().position(|line| line.starts_with(heading)).expect("the line of headings");
        let lines: Vec<&str> = run.stdout.lines().collect();
        assert!(lines[head].ends_with(last), "{}", lines[head]);
        assert_eq!(lines[head].width(), lines[head + 2].width(), "{}\n{}", lines[head], lines[head + 2]);
    }
}

/// The figures of one step in both documents.
#[track_caller]
fn agrees(explained: &Value, step: &Value) {
    for field in ["model", "size", "reach_probability", "fit_probability", "fit_probability_error"] {
        assert_eq!(explained[field], step[field], "{field}");
    }
    for field in ["fit_at_once_probability", "minutes", "start_pads", "bring_pads"] {
        assert_eq!(explained[field], step[field], "{field}");
    }
}

#[test]
fn the_first_step_is_that_of_the_plan() {
    let (why, plan) = (why(""), document(PLAN));
    assert_eq!((text(&why["schema"]), text(&why["leads_to"])), ("lidladder.why/1", "step"));
    let step = &why["step"];
    agrees(step, &plan["plan"]["first"]);
    let end = &step["to_the_end"];
    for field in ["expected_tries", "expected_minutes", "no_fit_probability"] {
        assert_eq!(end[field], plan["plan"][field], "{field}");
        let error = format!("{field}_error");
        assert_eq!(end[&error], plan["plan"][&error], "{error}");
    }
    let heads = &step["heads"]["as_measured"];
    assert_eq!(heads["mean"], plan["head"]["estimate"]["mean"]);
    assert_eq!(heads["shape_words"], plan["head"]["shape_words"]);
    has(&step["instead"][0], &["model", "size", "roles", "verdict", "costs_more_minutes", "shares"]);
}

#[rstest]
#[case("one")]
#[case("else")]
fn a_step_further_on_is_that_of_the_plan(#[case] kind: &str) {
    let reason = reason(kind);
    let (why, plan) = (why(&reason), document(PLAN));
    let branches = plan["plan"]["first"]["on"].as_array().expect("a list");
    let is_meant = |branch: &&Value| {
        branch["reason"] == reason.as_str()
            || branch["reasons"].as_array().is_some_and(|all| all.iter().any(|one| one == reason.as_str()))
    };
    let branch = branches.iter().find(is_meant).expect("a branch");
    agrees(&why["step"], &branch["next"]);
    assert_eq!(why["step"]["source"], branch["source"]);
    assert_eq!(why["step"]["note"], branch["note"]);
    assert_eq!(why["way"].as_array().map(Vec::len), Some(1));
    let passed = &why["way"][0];
    assert_eq!((&passed["model"], text(&passed["reason"])), (&plan["plan"]["first"]["model"], reason.as_str()));
    near(number(&passed["probability"]), number(&branch["probability"]), 1e-9, "the report");
    let alike = passed["reasons"].as_array().map(Vec::len);
    assert_eq!(alike > Some(1), kind == "else", "{passed}");
    assert!(words(&once(&format!("{PLAN} --why={reason}")).stdout).contains("fails: "));
}

#[test]
fn a_rule_beside_a_step_leads_to_its_target() {
    let (why, plan) = (why("too-noisy"), document(PLAN));
    assert_eq!(why["leads_to"], "aside");
    let beside = plan["plan"]["first"]["beyond_geometry"].as_array().expect("a list");
    let aside = beside.iter().find(|aside| aside["reason"] == "too-noisy").expect("the shop has a rule");
    for field in ["model", "size", "fit_probability", "note"] {
        assert_eq!(why["step"][field], aside[field], "{field}");
    }
    assert_eq!((text(&why["step"]["source"]), why["way"][0]["reasons"].as_array().map(Vec::len)), ("shop", Some(0)));
    let fits = number(&plan["plan"]["first"]["fit_probability"]);
    near(number(&why["step"]["reach_probability"]), fits, 1e-9, "whom the first helmet fits");
}

#[rstest]
#[case("dislikes-it", "no-rule", "the shop has no rule for it")]
#[case("rolls-off-forward", "stop", "out at once, whatever the pads: it rolls off forward")]
#[case("loose-sides,strap-cannot-hold", "stop", "out at once, whatever the pads: the strap can't hold")]
#[case("too-noisy,turns-on-head", "stop", "out at once, whatever the pads: it turns on the head")]
#[case("too-noisy,too-heavy", "beside-the-plan", "nothing follows it there")]
fn a_way_to_no_step_is_answered(#[case] reasons: &str, #[case] word: &str, #[case] said: &str) {
    let run = run(reasons);
    assert_eq!(run.status, 1);
    let document = run.document();
    assert_eq!(document["leads_to"], word);
    assert!(document["step"].is_null());
    assert!(reasons.split(',').any(|reason| document["ends_with"]["reason"] == reason));
    assert_eq!(document["warnings"][0]["code"], "no-step");
    assert!(text(&document["warnings"][0]["message"]).contains(said), "{}", document["warnings"][0]);
    let page = once(&format!("{PLAN} --why={reasons}"));
    assert_eq!(page.status, 1);
    assert!(words(&page.stdout).contains(said), "{}", page.stdout);
    is_plain_and_narrow(&page.stdout);
    says_the_cautions(&page.stdout);
}

#[rstest]
#[case::last("--steps 1", "that was the last try of this plan")]
#[case::time("--steps 2 --minutes 20", "nothing left is worth the minutes, or fits into those left")]
#[case::rules("--lead shop-only --why=loose-sides,tight-all-round", "the shop has no rule for it")]
fn a_plan_that_ends_says_why(#[case] options: &str, #[case] said: &str) {
    // What comes behind the end of the plan changes nothing.
    for behind in ["", ",loose-sides"] {
        let options =
            if options.contains("--why") { options.to_owned() } else { format!("{options} --why=loose-sides") };
        let run = once(&format!("{PLAN} {options}{behind}"));
        assert_eq!(run.status, 1);
        assert!(words(&run.stdout).contains(said), "{}", run.stdout);
    }
}

/// A head that is known exactly and fits for sure: nobody reports anything.
#[test]
fn what_nobody_reports_has_no_step() {
    let run = once("plan -c 575±0 -l 197±0 -b 154±0 -w 140±0 --why=temples-press --format json");
    assert_eq!((run.status, text(&run.document()["leads_to"])), (1, "unheard"));
}

#[test]
fn without_a_plan_there_is_no_step() {
    let run = once("plan --type off-road -c 690 --why --format json");
    assert_eq!((run.status, text(&run.document()["leads_to"])), (1, "no-plan"));
}

#[rstest]
#[case("loose-side", "did you mean `loose-sides`?")]
#[case("loose-sides,temples", "did you mean `temples-press`?")]
#[case("wobbles", "known here: tight-all-round")]
fn an_unknown_reason_is_a_mistake(#[case] reasons: &str, #[case] said: &str) {
    let run = lidladder(&format!("{PLAN} --why={reasons}"));
    assert_eq!((run.status, run.stdout.as_str()), (2, ""));
    assert!(run.stderr.contains("error[unknown-reason]"), "{}", run.stderr);
    assert!(run.stderr.contains(said), "{}", run.stderr);
}

#[test]
fn reasons_may_stand_apart_or_together() {
    let joined = once(&format!("{PLAN} --why=loose-sides,loose-front-to-back"));
    assert_eq!(*joined, lidladder(&format!("{PLAN} --why=loose-sides --why=loose-front-to-back")));
    assert_eq!(*joined, lidladder(&format!("{PLAN} --why loose-sides,loose-front-to-back")));
}

#[test]
fn outcomes_add_up_and_are_named_as_they_are_typed() {
    let why = why("");
    let after = &why["step"]["heads"]["after"];
    near(numbers(after, "probability").iter().sum(), 1.0, 1e-3, "a fit and every report");
    assert_eq!(after[0]["outcome"], "fit");
    let page = once(&format!("{PLAN} --why"));
    let is_shown = |outcome: &&Value| number(&outcome["probability"]) > 0.005;
    for outcome in after.as_array().expect("a list").iter().skip(1).filter(is_shown) {
        assert!(page.stdout.contains(&format!("\n  {}", text(&outcome["outcome"]))), "{outcome}");
    }
}

#[test]
fn the_page_says_why_the_choice_wins() {
    let page = words(&once(&format!("{PLAN} --why=loose-sides")).stdout);
    let why = why("loose-sides");
    for other in why["step"]["instead"].as_array().expect("a list") {
        let more = format!("{:+.1}±", number(&other["costs_more_minutes"]));
        assert!(page.contains(&more), "{more} is missing from {page}");
        let wins = other["verdict"] == "worse";
        assert!(!wins || page.contains("is better here: "), "{page}");
    }
    assert!(page.contains("if Lantreth Longways in M were not on the shelf"), "{page}");
    assert!(page.contains("the shop's rule: the narrow sister, same cheeks"), "{page}");
}
