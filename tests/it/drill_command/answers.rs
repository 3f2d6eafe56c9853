//! What can be answered, and what can't.

use super::{document, drill, told};
use crate::support::Folder;
use rstest::rstest;
use serde_json::{Value, json};

#[rstest]
#[case("session", "wexmarsh-one M", json!({"kind": "helmet", "model": "wexmarsh-one", "size": "M", "pads_mm": {}}))]
#[case("session", "wex-o m", json!({"kind": "helmet", "model": "wexmarsh-one", "size": "M", "pads_mm": {}}))]
#[case(
    "session",
    "t wexmarsh-o M sides=9.5",
    json!({"kind": "helmet", "model": "wexmarsh-one", "size": "M", "pads_mm": {"sides": 9.5}})
)]
#[case("session", "e", json!({"kind": "leave"}))]
#[case("next", "leave", json!({"kind": "leave"}))]
#[case("pads", "none", json!({"kind": "no-pads"}))]
#[case("shape", "i", json!({"kind": "shape", "shape": "intermediate"}))]
#[case("shape", "round", json!({"kind": "shape", "shape": "round"}))]
#[case("stop", "stop", json!({"kind": "stop"}))]
#[case("stop", "no", json!({"kind": "no-stop"}))]
fn an_answer_is_understood(#[case] exercise: &str, #[case] answer: &str, #[case] meant: Value) {
    // A session may go on.
    let document = document(&format!("--exercise {exercise} --customers 1"), &[answer, "e", "e"][..most(exercise)]);
    assert_eq!(document["tasks"][0]["answers"][0]["answer"], meant);
}

fn most(exercise: &str) -> usize {
    if exercise == "session" { 2 } else { 1 }
}

/// The pads that are in the helmet on the head are always pads that its shell takes.
#[rstest]
fn pads_are_understood_with_and_without_their_letter(
    #[values("pads", "next")] exercise: &str,
    #[values("", "p ", "pads ")] letter: &str,
) {
    let options = format!("--exercise {exercise} --customers 1 --level 2");
    let page = drill(&Folder::new(), &options, &[]).stdout;
    let (_, pads) = page.split_once("\n  in it     ").expect("a helmet is on");
    let sides = pads.split("sides ").nth(1).and_then(|rest| rest.split([',', ' ']).next()).expect("it has side pads");
    let document = document(&options, &[&format!("{letter}sides={sides}")]);
    let answer = &document["tasks"][0]["answers"][0]["answer"];
    assert_eq!(*answer, json!({"kind": "pads", "pads_mm": {"sides": sides.parse::<f64>().expect("a number")}}));
}

/// rear 14.5: of the smaller shell of that model.
#[test]
fn a_pad_of_another_shell_is_an_answer_and_a_slip() {
    let document = document("--exercise session --customers 1", &["wex-o M rear=14.5"]);
    let task = &document["tasks"][0];
    assert_eq!(task["answers"][0]["signs"], json!([{"habit": "pads-of-another-shell", "slipped": true}]));
    assert_eq!((&task["score"], &task["answers"][0]["heard"]), (&json!(0.0), &Value::Null));
    assert_eq!(document["weak"][0]["habit"], "pads-of-another-shell");
    let run = drill(&Folder::new(), "--exercise session --customers 1", &["wex-o M rear=14.5"]);
    assert!(run.stdout.contains("that can hurt somebody") && !run.stdout.contains("HEARD"), "{}", run.stdout);
}

#[rstest]
#[case("session", "", "answer-unknown", "1:1:1")]
#[case("session", "nobody M", "unknown-model", "1:1:1")]
#[case("session", "wexmarsh-onne M", "unknown-model", "did you mean `wexmarsh-one`")]
#[case("session", "wex M", "model-unclear", "wexmarsh-one, wexmarsh-slender, wexmarsh-two-flip")]
#[case("session", "we M", "unknown-model", "1:1:1")]
#[case("session", "wex-o Q", "unknown-size", "1:1:7")]
#[case("session", "wex-o", "answer-form", "wexmarsh-one XS")]
#[case("session", "p", "answer-form", "zones with a thickness")]
#[case("session", "p sides=9.5", "answer-refused", "no helmet is on the head")]
#[case("session", "wex-o M sides", "pads-form", "1:1:9")]
#[case("session", "wex-o M sides=x", "not-a-number", "1:1:9")]
#[case("session", "wex-o M sides=9.5 sides=10", "pads-form", "two different pads")]
#[case("session", "wex-o M nose=10", "unknown-word", "1:1:9")]
#[case("session", "wex-o M sides=99", "pad-not-on-offer", "whatever the shell")]
#[case("session", "long", "answer-refused", "that is no answer to this question")]
#[case("next", "none", "answer-refused", "that is no answer to this question")]
#[case("shape", "oval", "answer-unknown", "long, intermediate or round")]
#[case("shape", "wex-o M", "answer-unknown", "long, intermediate or round")]
#[case("shape", "stop", "answer-refused", "long, intermediate or round")]
#[case("pads", "wex-o M", "answer-unknown", "no pads help, another helmet")]
#[case("pads", "e", "answer-refused", "no pads help, another helmet")]
#[case("pads", "sides=99", "pad-not-on-offer", "whatever the shell")]
#[case("stop", "maybe", "answer-unknown", "stop, or no")]
#[case("stop", "\u{202e}\u{1b}[31m", "answer-unknown", "stop, or no")]
fn a_mistake_is_told_with_its_place(
    #[case] exercise: &str,
    #[case] answer: &str,
    #[case] code: &str,
    #[case] words: &str,
) {
    let run = drill(&Folder::new(), &format!("--exercise {exercise} --customers 1"), &[answer, "q"]);
    assert_eq!(run.status, 2, "{}", run.stdout);
    let told = told(&run);
    assert!(told.contains(&format!("error[{code}]")) && told.contains(words), "{}", run.stderr);
    assert!(run.stderr.contains("answer 1:1:"), "{}", run.stderr);
    assert!(!run.stderr.contains('\u{1b}') && !run.stdout.contains(['\u{1b}', '\u{202e}']));
}

#[test]
fn a_size_that_is_not_there_cannot_be_fetched() {
    let options = "--exercise session --customers 1 --out-of-stock wexmarsh-one/M";
    let run = drill(&Folder::new(), options, &["wex-o M"]);
    assert!(
        run.status == 2 && told(&run).contains("error[answer-refused]: there is no such helmet here"),
        "{}",
        run.stderr
    );
    assert!(!run.stdout.contains("M=57-58, L=59-60, XL=61-62, XXL=63-64\n  wexmarsh-slender"), "{}", run.stdout);
}

#[rstest]
#[case::left(&["no", "q", "no"], "1 of 3 customers")]
#[case::no_more(&["no", "stop"], "2 of 3 customers")]
#[case::none(&[], "0 of 3 customers")]
fn a_run_that_ends_early_has_its_result(#[case] answers: &[&str], #[case] shown: &str) {
    let run = drill(&Folder::new(), "--exercise stop --customers 3", answers);
    assert_eq!((run.status, run.stderr.as_str()), (1, ""));
    assert!(run.stdout.contains(&format!("RESULT  {shown}")), "{}", run.stdout);
}

#[test]
fn a_session_that_is_left_counts_nothing() {
    let left = document("--exercise session --customers 1", &["wex-o M", "q"]);
    assert_eq!((&left["tasks"], &left["score"]), (&json!([]), &Value::Null));
}

#[test]
fn help_shows_every_answer_and_asks_again() {
    let run = drill(&Folder::new(), "--exercise session --customers 1", &["?", "e"]);
    assert_eq!(run.status, 0);
    assert!(run.stdout.contains("  ZONE=MM ...") && run.stdout.matches("ON THE WALL").count() == 2, "{}", run.stdout);
    assert_eq!(document("--exercise stop --customers 1", &["?", "?", "no"])["tasks"].as_array().map(Vec::len), Some(1));
}

#[rstest]
#[case("--level 4")]
#[case("--customers 0")]
#[case("--customers 501")]
#[case("--exercise nose")]
#[case("--paper --answers a.txt")]
#[case("--paper --format json")]
fn options_have_their_bounds(#[case] options: &str) {
    let run = Folder::new().run(&format!("drill {options}"));
    assert!(run.status == 2 && run.stdout.is_empty() && run.stderr.starts_with("error: "), "{}", run.stderr);
}

#[rstest]
#[case("--day 14.3.2026", "not-a-day")]
#[case("--population martians", "unknown-population")]
#[case("--type nose", "unknown-word")]
#[case("--out-of-stock nobody", "unknown-model")]
#[case("--price-limit 1", "nothing-left")]
#[case("--answers nowhere.txt", "answers-unreadable")]
#[case("--paper --exercise session", "session-on-paper")]
#[case("--results .", "results-unusable")]
#[case("--results nowhere/mine.jsonl", "results-unusable")]
fn what_is_wrong_is_told_before_anybody_comes_in(#[case] options: &str, #[case] code: &str) {
    let run = Folder::new().run(&format!("drill {options}"));
    assert_eq!((run.status, run.stdout.as_str()), (2, ""), "{}", run.stderr);
    assert!(run.stderr.contains(&format!("error[{code}]")), "{}", run.stderr);
}
