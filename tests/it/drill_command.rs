//! `lidladder drill` as a trainee and as a trainer meet it.

mod answers;
mod paper;
mod results;

use crate::support::{Folder, Program, Run, eighty_plain_columns, root};
use rstest::rstest;
use serde_json::Value;
use std::fs;

/// Practises in a folder with these answers from a file.
fn drill(folder: &Folder, options: &str, answers: &[&str]) -> Run {
    folder.write("answers.txt", answers.iter().map(|answer| format!("{answer}\n")).collect::<String>());
    let day = if options.contains("--day ") { "" } else { "--day 2026-03-14" };
    folder.run(&format!("drill {day} --answers answers.txt {options}"))
}

/// The document of a run.
fn document(options: &str, answers: &[&str]) -> Value {
    drill(&Folder::new(), &format!("{options} --format json"), answers).document()
}

/// What went wrong, on one line however it was broken.
fn told(run: &Run) -> String {
    run.stderr.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn a_run_reads_as_it_did() {
    let path = root().join("tests/it/drill_command/run.txt");
    let options = "--customers 5 --seed 4 --type full-face";
    let page = answering(&Folder::new(), options, |exercise, asked| match (exercise, asked) {
        ("whole sessions", 0) => "hasp-pl M",
        ("whole sessions" | "the next step", _) => "wex-o M",
        ("the shape", _) => "long",
        ("pads", _) => "none",
        _ => "no",
    })
    .stdout;
    if std::env::var_os("LIDLADDER_UPDATE").is_some() {
        fs::write(&path, &page).expect("the page can be written");
    }
    assert_eq!(page, fs::read_to_string(&path).expect("the page is there"), "renew it with LIDLADDER_UPDATE=1");
}

/// Answers question by question: `answer` gets the exercise and how often it was answered for the same customer.
fn answering(folder: &Folder, options: &str, answer: impl Fn(&str, usize) -> &'static str) -> Run {
    let mut answers: Vec<&str> = Vec::new();
    loop {
        let run = drill(folder, options, &answers);
        assert_eq!(run.stderr, "");
        let Some((before, _)) = run.stdout.split_once("\nRESULT  ") else { panic!("{}", run.stdout) };
        if !before.trim_end().ends_with('>') {
            return run;
        }
        let (_, last) = before.rsplit_once("\nCUSTOMER ").expect("a customer is there");
        let exercise = last.lines().next().and_then(|line| line.split("  ").nth(1)).expect("a title").to_owned();
        answers.push(answer(&exercise, last.matches("\n> ").count() - 1));
    }
}

#[test]
fn the_same_seed_gives_the_same_bytes_and_another_gives_others() {
    let run = |options: &str| drill(&Folder::new(), options, &["no", "no", "no"]);
    let stops = "--exercise stop --customers 3";
    assert_eq!(run(stops), run(stops));
    assert_ne!(run(stops).stdout, run(&format!("{stops} --seed 2")).stdout);
}

#[rstest]
#[case("--level 1 --customers 5")]
#[case("--level 2 --customers 5 --look words --as-they-come")]
#[case("--level 3 --customers 5 --same-for-all --type full-face,flip-front")]
fn pages_are_eighty_plain_columns(#[case] options: &str) {
    let run = answering(&Folder::new(), options, |exercise, _| match exercise {
        "the shape" => "long",
        "pads" => "none",
        "stops" => "no",
        _ => "e",
    });
    assert_eq!(run.status, 0);
    // A prompt waits behind its space.
    eighty_plain_columns(&run.stdout.replace("> \n", ">\n"));
    for words in ["SCORE", "WHAT TO PRACTISE", "CAUTIONS", "strap can't hold", "no fit check"] {
        assert!(run.stdout.contains(words), "{words} in\n{}", run.stdout);
    }
    // Two lines about each customer, each broken once at most.
    for line in ["\n  result    ", "\n  why       "] {
        let told: Vec<&str> = run.stdout.split(line).skip(1).collect();
        assert_eq!(told.len(), 5);
        for text in told {
            let more = text.lines().skip(1).take_while(|line| line.starts_with("            ")).count();
            assert!(more <= 1, "{line}{text}");
        }
    }
}

#[test]
fn long_names_of_wide_letters_keep_the_page_in_shape() {
    let folder = Folder::with_profiles();
    let wide = ["頭", "盔"].repeat(4).join("") + " " + &"寬".repeat(20);
    folder.edit("profiles/helmets/wexmarsh.yaml", "name: Wexmarsh One", &format!("name: {wide}"));
    let run = drill(&folder, "--profiles profiles --exercise session --customers 1", &["wex-o M", "e"]);
    assert!(run.status < 2 && run.stdout.contains('盔'), "{}", run.stderr);
    eighty_plain_columns(&run.stdout.replace("> \n", ">\n"));
}

#[rstest]
#[case::drawn("", "a row is 1 cm", true)]
#[case::in_a_word("--look words", "long from above", false)]
fn a_head_is_seen_from_above(#[case] options: &str, #[case] shown: &str, #[case] is_drawn: bool) {
    let run = drill(&Folder::new(), &format!("--exercise session --customers 1 {options}"), &[]);
    assert!(run.stdout.contains(shown), "{}", run.stdout);
    // The nose.
    assert_eq!(run.stdout.contains("  /\\\n"), is_drawn);
}

/// Whoever practises the shape in words is told no word: it would be the answer.
#[test]
fn the_word_for_a_shape_is_no_hint() {
    let run = drill(&Folder::new(), "--exercise shape --customers 1 --look words --level 2", &[]);
    let (_, asked) = run.stdout.split_once("CUSTOMER 1").expect("it is asked");
    let (hints, _) = asked.split_once("  asked  ").expect("it is asked");
    assert!(hints.contains("wide where it is 100 long"), "{asked}");
    for word in ["long oval", "intermediate", "round"] {
        assert!(!hints.contains(word), "{word}: {asked}");
    }
}

#[test]
fn shells_are_named_at_the_first_level_only() {
    let page = |level: u8| {
        let options = format!("--exercise pads --customers 1 --level {level}");
        drill(&Folder::new(), &options, &[]).stdout.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    assert!(page(1).contains("drawer shell ") && !page(1).contains("shells mixed"));
    assert!(page(2).contains("shells mixed") && !page(2).contains("drawer shell "));
}

#[test]
fn a_document_is_all_there_is_on_the_page() {
    let document = document("--exercise stop --customers 4", &["no", "no", "no", "no"]);
    assert_eq!((&document["schema"], &document["customers"]), (&"lidladder.drill/1".into(), &4.into()));
    let tasks = document["tasks"].as_array().expect("a list");
    assert_eq!(tasks.len(), 4);
    let is_right = |task: &Value| task["answers"][0]["best"]["kind"] == "no-stop";
    assert!(tasks.iter().all(|task| task["score"] == f64::from(u8::from(is_right(task)))), "{document}");
    let right = tasks.iter().filter(|task| is_right(task)).count();
    assert!((1..4).contains(&right), "stops and others come in turn");
    assert_eq!(document["weak"][0]["habit"], "ignores-stops", "one is enough");
    assert_eq!(document["weak"][0]["slips"], 4 - right);
}

#[test]
fn a_reader_that_went_away_is_no_error() {
    use std::io::Write;
    use std::process::Stdio;
    let folder = Folder::new();
    let line = "drill --exercise stop --customers 3 --day 2026-03-14 --results mine.jsonl";
    let mut command = Program::new().line(line).command(folder.path());
    let mut child = command.stdin(Stdio::piped()).spawn().expect("the program starts");
    drop(child.stdout.take());
    child.stdin.take().expect("a pipe").write_all(b"no\nno\nstop\n").expect("it listens");
    let output = child.wait_with_output().expect("it ends");
    assert_eq!((output.status.code(), output.stderr.as_slice()), (Some(0), b"".as_slice()));
    let kept = fs::read_to_string(folder.path().join("mine.jsonl")).expect("results are kept");
    assert_eq!(kept.lines().count(), 3);
}
