//! The trainee's own results.

use super::{drill, told};
use crate::support::{Folder, Program};
use lidladder::drill::Kept;
use rstest::rstest;
use serde_json::{Value, json};
use std::fs;
use std::process::{Child, Stdio};

const STOPS: &str = "--exercise stop --results mine.jsonl --format json";

fn kept(folder: &Folder) -> Vec<Kept> {
    let text = fs::read_to_string(folder.path().join("mine.jsonl")).expect("results are kept");
    assert!(text.is_empty() || text.ends_with('\n'));
    text.lines().map(|line| Kept::from_line(line).expect("each line is a result")).collect()
}

fn customers(document: &Value) -> Vec<u64> {
    let tasks = document["tasks"].as_array().expect("a list");
    tasks.iter().map(|task| task["customer"].as_u64().expect("a number")).collect()
}

#[test]
fn a_finished_task_is_a_line_and_customers_go_on() {
    let folder = Folder::new();
    let first = drill(&folder, &format!("{STOPS} --customers 3"), &["no", "stop", "no"]).document();
    let again = drill(&folder, &format!("{STOPS} --customers 3"), &["no", "q"]).document();
    assert_eq!((customers(&first), customers(&again)), (vec![1, 2, 3], vec![4]));
    let kept = kept(&folder);
    assert_eq!(kept.iter().map(|kept| kept.number).collect::<Vec<_>>(), [1, 2, 3, 4]);
    let scores: Vec<Value> = kept.iter().map(|kept| json!(kept.score)).collect();
    let told = first["tasks"].as_array().into_iter().chain(again["tasks"].as_array()).flatten();
    assert_eq!(scores, told.map(|task| task["score"].clone()).collect::<Vec<_>>());
}

/// A result of this day and customer, with a slip or with nothing that could be one.
fn line(day: &str, customer: u64, signs: &Value) -> String {
    let line = json!({
        "schema": "lidladder.result/1", "day": day, "customer": customer, "seed": 1, "exercise": "stop", "level": 1,
        "score": 0.0, "more_minutes": 0.0, "more_tries": 0.0, "signs": signs
    });
    format!("{line}\n")
}

/// The shop's file says: three customers or one day later, and no two in a row, so that only odd numbers return something.
#[rstest]
#[case::too_soon("2026-03-14", 8, false)]
#[case::three_customers_later("2026-03-14", 10, true)]
#[case::a_day_later("2026-03-13", 8, true)]
#[case::a_day_to_come("2026-03-20", 10, false)]
fn a_weak_spot_returns_when_it_is_due(#[case] day: &str, #[case] latest: u64, #[case] returns: bool) {
    let folder = Folder::new();
    let slip = line(day, 7, &json!([{"habit": "ignores-stops", "slipped": true}]));
    folder.write("mine.jsonl", slip + &line(day, latest, &json!([])));
    let document = drill(&folder, &format!("{STOPS} --customers 1"), &["stop"]).document();
    assert_eq!(customers(&document), [latest + 1]);
    let task = &document["tasks"][0];
    assert_eq!(task["aim"] == "ignores-stops", returns, "{document}");
    assert!(!returns || task["answers"][0]["best"]["kind"] == "stop", "it brings the habit to light: {document}");
    assert!(document["returns"].as_array().is_some_and(|returns| returns[0]["habit"] == "ignores-stops"));
    let same = drill(&folder, &format!("{STOPS} --customers 1 --same-for-all"), &["no"]).document();
    assert_eq!((&same["tasks"][0]["aim"], customers(&same)), (&Value::Null, vec![1]));
}

#[test]
fn results_of_a_day_to_come_are_read() {
    let folder = Folder::new();
    let line = r#"{"schema":"lidladder.result/1","day":"9999-12-31","customer":7,"seed":1,"exercise":"stop","level":1,"score":0.0,"more_minutes":0.0,"more_tries":0.0,"signs":[{"habit":"ignores-stops","slipped":true}]}"#;
    folder.write("mine.jsonl", format!("{line}\n"));
    let document = drill(&folder, &format!("{STOPS} --customers 2"), &["stop", "no"]).document();
    assert_eq!(customers(&document), [8, 9]);
    assert_eq!(kept(&folder).len(), 3);
}

#[test]
fn all_bad_lines_are_told_at_once_and_nothing_is_changed() {
    let folder = Folder::new();
    drill(&folder, &format!("{STOPS} --customers 1"), &["no"]).document();
    let good = fs::read_to_string(folder.path().join("mine.jsonl")).expect("results are kept");
    let text = format!(
        "{good}nonsense\n{}{}\u{1b}[31m\n{{\"schema\":\"lidladder.result/1\"",
        good.replace("\"customer\":1", "\"customer\":0"),
        good.replace("ignores-stops", "sings").replace("\"stop\"", "\"song\"")
    );
    folder.write("mine.jsonl", &text);
    let run = drill(&folder, &format!("{STOPS} --customers 1"), &["no"]);
    assert_eq!((run.status, run.stdout.as_str()), (2, ""));
    for place in ["mine.jsonl:2:2", "mine.jsonl:3:", "mine.jsonl:4:", "mine.jsonl:5:", "mine.jsonl:6:"] {
        assert!(run.stderr.contains(place), "{place} in\n{}", run.stderr);
    }
    assert_eq!(run.stderr.matches("error[results-line]").count(), 5, "{}", run.stderr);
    assert!(told(&run).contains("mend or delete the line") && !run.stderr.contains('\u{1b}'));
    assert_eq!(fs::read_to_string(folder.path().join("mine.jsonl")).expect("it stays"), text);
}

#[test]
fn no_number_is_left_behind_the_highest() {
    let folder = Folder::new();
    drill(&folder, &format!("{STOPS} --customers 1"), &["no"]).document();
    folder.edit("mine.jsonl", "\"customer\":1,", "\"customer\":1000000000,");
    let run = drill(&folder, &format!("{STOPS} --customers 1"), &["no"]);
    assert!(run.status == 2 && run.stderr.contains("error[results-unusable]"), "{}", run.stderr);
}

#[test]
fn two_runs_at_once_lose_nothing() {
    let folder = Folder::new();
    folder.write("answers.txt", "no\n".repeat(40));
    let line = format!("drill --answers answers.txt --day 2026-03-14 {STOPS} --customers 40");
    let start = |line: &str| {
        let mut command = Program::new().line(line).command(folder.path());
        command.stdout(Stdio::null()).spawn().expect("the program starts")
    };
    let children: Vec<Child> = (0..3).map(|_| start(&line)).collect();
    for mut child in children {
        assert_eq!(child.wait().expect("it ends").code(), Some(0));
    }
    assert_eq!(kept(&folder).len(), 120);
}

#[test]
fn without_a_file_nothing_is_kept() {
    let folder = Folder::new();
    let run = drill(&folder, "--exercise stop --customers 1", &["no"]);
    assert_eq!((run.status, run.stdout.contains("RETURNS")), (0, false));
    assert_eq!(fs::read_dir(folder.path()).expect("a folder").count(), 1);
}

#[test]
fn earlier_runs_count_for_what_to_practise() {
    let folder = Folder::new();
    let slip = json!([{"habit": "size-up-for-cheeks", "slipped": true}]);
    folder.write("mine.jsonl", (1..=4).map(|customer| line("2026-03-10", customer, &slip)).collect::<String>());
    let document = drill(&folder, &format!("{STOPS} --customers 1"), &["stop"]).document();
    let first = &document["weak"][0];
    assert_eq!((&first["habit"], &first["slips"]), (&json!("size-up-for-cheeks"), &json!(4)), "{document}");
}
