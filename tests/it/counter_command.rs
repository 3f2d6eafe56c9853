//! `lidladder counter`: a session with answers from a file or a pipe, as it reads and what it leaves behind.

mod kills;

use crate::support::{Folder, Program, Run};
use rstest::rstest;
use serde_json::Value;

/// Runs a session with these answers in a folder, with a journal.
fn session(folder: &Folder, options: &str, answers: &[&str]) -> Run {
    folder.write("answers.txt", answers.join("\n") + "\n");
    folder.run(&format!("counter {options} --journal j.jsonl --day 2026-03-14 --answers answers.txt"))
}

fn journal(folder: &Folder) -> String {
    std::fs::read_to_string(folder.path().join("j.jsonl")).expect("a session leaves a journal")
}

fn records(folder: &Folder) -> Vec<Value> {
    journal(folder).lines().map(|line| serde_json::from_str(line).expect("a line is JSON")).collect()
}

/// What went wrong, on one line however it was broken.
fn told(run: &Run) -> String {
    run.stderr.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// What was to be tried at each step: the lines that begin with `try` or `swap in`.
fn steps(run: &Run) -> Vec<String> {
    let lines = run.stdout.lines().map(str::trim_start);
    let lines = lines.filter(|line| line.starts_with("try  ") || line.starts_with("swap in  "));
    lines.map(|line| line.split(" - ").next().unwrap_or_default().trim_end().to_owned()).collect()
}

#[test]
fn a_fit_ends_the_session_with_what_to_take_home() {
    let folder = Folder::new();
    let run = session(&folder, "-c 57.5cm", &["temples-press", "f"]);
    assert_eq!((run.status, run.stderr.as_str()), (0, ""));
    for words in ["FITTED  Wexmarsh One in M", "sides 11.5 instead of 15.5", "CARE", "CAUTIONS", "approval mark"] {
        assert!(run.stdout.contains(words), "{words} in\n{}", run.stdout);
    }
    let records = records(&folder);
    assert_eq!(records.len(), 1, "other pads in a helmet are no further try");
    assert_eq!(records[0]["rounds"].as_array().map(Vec::len), Some(2));
    assert_eq!(records[0]["rounds"][0]["reason"], "temples-press");
    assert_eq!(records[0]["rounds"][1]["reason"], Value::Null);
    assert_eq!((&records[0]["customer"], &records[0]["day"]), (&Value::from(1), &Value::from("2026-03-14")));
}

#[test]
fn pages_are_eighty_columns_wide_and_plain_where_nobody_sees_colours() {
    let run = session(&Folder::new(), "-c 57.5cm -b 158", &["?", "6", "9", "s1", "too-heavy", "b", "f"]);
    let widest = run.stdout.lines().max_by_key(|line| line.chars().count()).expect("it prints");
    assert!(widest.chars().count() <= 80, "{widest}");
    assert!(!run.stdout.contains('\u{1b}'));
}

#[test]
fn the_stops_stand_before_all_else_at_every_step() {
    let run = session(&Folder::new(), "-c 57.5cm", &["6", "6", "2", "f"]);
    let pages = run.stdout.split("STEP ").skip(1);
    for page in pages {
        let stop = page.find("s1 rolls-off-forward").expect("every step offers the stops");
        assert!(page.find("tight-all-round").is_some_and(|fails| stop < fails), "{page}");
    }
}

#[rstest]
#[case::at_once(&["s1", "b"])]
#[case::by_name(&["turns-on-head", "back"])]
fn a_stop_cannot_be_taken_back(#[case] answers: &[&str]) {
    let folder = Folder::new();
    let run = session(&folder, "-c 57.5cm", answers);
    assert_eq!(run.status, 2);
    assert!(run.stderr.contains("error[answer-refused]: a stop can't be taken back"), "{}", run.stderr);
}

#[rstest]
#[case::the_same_helmet("t wexmarsh-one M")]
#[case::with_other_pads("t wexmarsh-one M sides=11.5")]
#[case::other_pads("p sides=11.5")]
fn a_stop_cannot_be_argued_away(#[case] again: &str) {
    let folder = Folder::new();
    let run = session(&folder, "-c 57.5cm", &["s4", again]);
    assert_eq!(run.status, 2);
    assert!(told(&run).contains("it is out for this customer, whatever the pads"), "{}", run.stderr);
    // The session waits; whatever is proposed now is another helmet.
    let rest = session_resumed(&folder, &["f"]);
    assert_eq!(rest.status, 0);
    assert!(!steps(&rest)[0].contains("Wexmarsh One in M"), "{}", rest.stdout);
}

fn session_resumed(folder: &Folder, answers: &[&str]) -> Run {
    folder.write("answers.txt", answers.join("\n") + "\n");
    folder.run("counter --resume --journal j.jsonl --answers answers.txt")
}

#[test]
fn what_is_taken_back_leaves_no_trace() {
    let (one, two) = (Folder::new(), Folder::new());
    let detour = session(&one, "-c 57.5cm", &["6", "8", "b", "m breadth=150", "b", "b", "2", "b", "6", "f"]);
    let straight = session(&two, "-c 57.5cm", &["6", "f"]);
    assert_eq!((detour.status, journal(&one)), (straight.status, journal(&two)));
}

#[test]
fn nothing_before_the_first_answer_can_be_taken_back() {
    let run = session(&Folder::new(), "-c 57.5cm", &["b"]);
    assert!(run.status == 2 && run.stderr.contains("there is nothing to take back"), "{}", run.stderr);
}

#[test]
fn what_a_customer_refuses_or_finds_too_heavy_is_not_proposed_again() {
    let run = session(&Folder::new(), "-c 57.5cm", &["n", "too-heavy", "n", "e"]);
    let steps = steps(&run);
    assert_eq!(steps.len(), 4, "{steps:?}");
    let names: Vec<_> = steps.iter().map(|step| step.trim_start_matches("try").trim().split(" in ").next()).collect();
    assert!(names.iter().enumerate().all(|(at, name)| !names[..at].contains(name)), "{names:?}");
    assert!(run.stdout.contains("NO HELMET") && run.status == 1);
}

#[test]
fn a_reading_during_the_session_counts_from_then_on() {
    let folder = Folder::new();
    let run = session(&folder, "-c 57.5cm", &["6", "m breadth=158", "f"]);
    assert!(run.stdout.contains("HEARD  breadth 158±1.5 mm"), "{}", run.stdout);
    let again = session(&folder, "-c 57.5cm", &["m breadth=15.8cm+-0.2", "f"]);
    assert_eq!(again.status, 0);
    let records = records(&folder);
    let measures = |at: usize| records[at]["readings"].as_array().map(Vec::len);
    assert_eq!((measures(0), measures(1)), (Some(1), Some(2)), "the first try began before it");
    assert_eq!((&records[1]["readings"][1]["mm"], &records[1]["readings"][1]["sd_mm"]), (&158.0.into(), &2.0.into()));
}

#[test]
fn a_choice_of_ones_own_is_followed_and_recorded() {
    let folder = Folder::new();
    let run = session(&folder, "-c 57.5cm", &["t haspenfell-plum M rear=9", "5", "p rear=17.5 sides=18.5", "f"]);
    assert_eq!((run.status, run.stderr.as_str()), (0, ""));
    assert!(run.stdout.contains("your own choice"));
    let records = records(&folder);
    assert_eq!((records.len(), &records[0]["model"]), (1, &Value::from("haspenfell-plum")));
    let pads = |round: usize, zone: &str| records[0]["rounds"][round]["pads_mm"][zone].as_f64();
    assert_eq!([pads(0, "rear"), pads(1, "rear"), pads(1, "sides")], [Some(9.0), Some(17.5), Some(18.5)]);
    assert!(records[0]["fit_probability"].as_f64().is_some_and(|said| (0.0..=1.0).contains(&said)));
}

#[rstest]
#[case::unknown("ouch", "answer-unknown")]
#[case::number("22", "answer-unknown")]
#[case::more_behind("f now", "answer-unknown")]
#[case::model("t wexmarsh-onne M", "unknown-model")]
#[case::size("t wexmarsh-one Q", "unknown-size")]
#[case::form("t wexmarsh-one", "answer-form")]
#[case::pads_before("p sides=10", "answer-refused")]
#[case::measure("m nose=30", "unknown-word")]
#[case::value("m breadth=0", "measure-human")]
#[case::no_value("m breadth", "answer-form")]
fn a_mistake_in_a_file_of_answers_ends_the_run_and_the_session_waits(#[case] answer: &str, #[case] code: &str) {
    let folder = Folder::new();
    let run = session(&folder, "-c 57.5cm", &[answer, "f"]);
    assert_eq!(run.status, 2, "{}", run.stdout);
    assert!(run.stderr.contains(&format!("error[{code}]")) && run.stderr.contains("answer 1:1:"), "{}", run.stderr);
    assert_eq!(session_resumed(&folder, &["f"]).status, 0);
}

#[test]
fn pads_of_another_shell_are_not_on_offer() {
    let folder = Folder::new();
    let run = session(&folder, "-c 57.5cm", &["6", "p sides=11"]);
    assert_eq!(run.status, 2);
    assert!(run.stderr.contains("error[pad-not-on-offer]") && run.stderr.contains("on offer:"), "{}", run.stderr);
}

#[test]
fn without_a_journal_nothing_is_kept() {
    let folder = Folder::new();
    folder.write("answers.txt", "6\n");
    let run = folder.run("counter -c 57.5cm --answers answers.txt");
    assert_eq!(run.status, 1);
    assert!(run.stdout.contains("Nothing was kept"), "{}", run.stdout);
    assert_eq!(std::fs::read_dir(folder.path()).expect("a folder").count(), 1);
}

#[test]
fn a_session_that_is_left_says_how_to_go_on() {
    let folder = Folder::new();
    let left = session(&folder, "-c 57.5cm", &["6", "q", "f"]);
    assert_eq!(left.status, 1);
    assert!(left.stdout.contains("lidladder counter --journal j.jsonl --resume=1"), "{}", left.stdout);
    assert_eq!(journal(&folder), "", "the journal holds sessions that ended");
    let rest = folder.write("answers.txt", "f\n");
    let rest = folder.run(&format!("counter --journal j.jsonl --resume=1 --answers {}", rest.display()));
    assert_eq!(rest.status, 0);
    let straight = Folder::new();
    session(&straight, "-c 57.5cm", &["6", "f"]);
    assert_eq!(journal(&folder), journal(&straight));
}

#[test]
fn which_session_must_be_clear() {
    let folder = Folder::new();
    let resume = |folder: &Folder| folder.run("counter --resume --journal j.jsonl");
    assert!(resume(&folder).stderr.contains("error[session-none]"));
    session(&folder, "-c 57.5cm", &["q"]);
    session(&folder, "-c 600", &["q"]);
    let unclear = resume(&folder);
    assert!(unclear.stderr.contains("error[session-which]") && unclear.stderr.contains("1, 2"), "{}", unclear.stderr);
    let strange = folder.run("counter --resume=1 --journal j.jsonl --circumference 575");
    assert!(strange.status == 2 && strange.stderr.contains("cannot be used with"), "{}", strange.stderr);
}

#[test]
fn notes_that_say_nothing_are_no_session() {
    let folder = Folder::new();
    session(&folder, "-c 57.5cm", &["q"]);
    let notes = folder.path().join("j.jsonl.open").join("1.jsonl");
    let good = std::fs::read_to_string(&notes).expect("an open session has notes");
    for (bad, wanted) in [
        (good.replace("session/1", "session/9"), "says `lidladder.session/9`"),
        (good.replace("\"adults\"", "\"martians\""), "the profiles have no population `martians`"),
        (good.replace("\"wexmarsh-one\"", "\"gone-one\""), "the profiles have no model `gone-one`"),
        (format!("{good}{{\"event\":\"sang\"}}\n"), "note 2"),
        ("x\n".to_owned(), "note 1"),
    ] {
        std::fs::write(&notes, &bad).expect("notes can be written");
        let run = session_resumed(&folder, &["f"]);
        assert!(run.status == 2 && told(&run).contains(wanted), "{wanted} in {}", run.stderr);
        assert_eq!(std::fs::read_to_string(&notes).expect("they stay"), bad);
    }
}

#[test]
fn answers_come_through_a_pipe_too() {
    use std::io::Write;
    use std::process::Stdio;
    let folder = Folder::new();
    let mut command = Program::new().line("counter -c 57.5cm").command(folder.path());
    let mut child = command.stdin(Stdio::piped()).spawn().expect("the program starts");
    child.stdin.take().expect("a pipe").write_all(b"6\nf\n").expect("it listens");
    let output = child.wait_with_output().expect("it ends");
    assert_eq!(output.status.code(), Some(0));
    assert!(String::from_utf8_lossy(&output.stdout).contains("FITTED"));
}

#[rstest]
#[case("no-such-file")]
#[case(".")]
fn answers_that_cannot_be_read(#[case] file: &str) {
    let run = Folder::new().run(&format!("counter -c 575 --answers {file}"));
    assert!(run.status == 2 && run.stderr.contains("error[answers-unreadable]"), "{}", run.stderr);
}

#[rstest]
#[case("14.3.2026")]
#[case("2026-02-30")]
fn a_day_that_the_calendar_has_not(#[case] day: &str) {
    let run = Folder::new().run(&format!("counter -c 575 --day {day}"));
    assert!(run.status == 2 && run.stderr.contains("error[not-a-day]"), "{}", run.stderr);
}
