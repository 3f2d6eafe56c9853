//! `lidladder plan` as a fitter and as a program meet it.

mod options;
mod pages;
mod why;

use crate::support::{Folder, Program, Run, lidladder, once, root};
use rstest::rstest;
use serde_json::Value;
use unicode_width::UnicodeWidthStr;

/// Exact figures are not the matter here; a small range is planned quickly.
const QUICK: &str = "plan --type off-road -c 57.5cm";

#[track_caller]
fn is_plain_and_narrow(text: &str) {
    for line in text.lines() {
        assert!(line.width() <= 80, "{} columns: {line:?}", line.width());
        assert!(!line.ends_with(' '), "{line:?}");
        assert!(!line.chars().any(char::is_control), "{line:?}");
    }
}

/// Headings, in the order of the page.
fn headings(text: &str) -> Vec<&str> {
    let is_heading = |word: &&str| word.len() > 2 && word.chars().all(|c| c.is_ascii_uppercase());
    let starts = text.lines().filter(|line| !line.starts_with(' ')).filter_map(|line| line.split_whitespace().next());
    starts.filter(is_heading).collect()
}

#[rstest]
#[case("plan -c 57.5cm")]
#[case("plan")]
#[case(
    "plan -c 60.1cm -l 205±2 -b 15.2cm --wears wexmarsh-two-flip/XL/loose-sides --steps 3 --type full-face,adventure"
)]
fn a_page_has_its_four_parts_in_eighty_plain_columns(#[case] line: &str) {
    let run = once(line);
    let page = run.good();
    is_plain_and_narrow(page);
    assert_eq!(headings(page), ["HEAD", "RANKING", "PLAN", "CAUTIONS"]);
    assert!(page.ends_with('\n') && !page.ends_with("\n\n"));
}

#[test]
fn a_page_says_what_no_figure_says() {
    let run = once(QUICK);
    let (_, cautions) = run.good().split_once("\nCAUTIONS\n").expect("the last part");
    says_the_cautions(cautions);
}

/// Every caution that the trade insists on.
#[track_caller]
pub(crate) fn says_the_cautions(text: &str) {
    let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for part in [
        "no fit check",
        "rolls off",
        "turns on the head",
        "strap can't hold",
        "out at once, whatever the pads",
        "Only the maker's own pads for that model and size",
        "never stack, cut or mix",
        "approval mark",
        "after an impact",
        "The maker's instructions and the local law come first",
    ] {
        assert!(words.contains(part), "{part:?} is missing from {words}");
    }
}

#[test]
fn a_program_reads_the_same_cautions() {
    let document = document(QUICK);
    let lines: Vec<&str> = strings(&document["cautions"]);
    says_the_cautions(&lines.join("\n"));
}

#[test]
fn colours_are_for_terminals_only() {
    let plain = once(QUICK);
    let asked = Program::new().line(QUICK).set("CLICOLOR_FORCE", "1").run();
    assert!(asked.good().contains("\u{1b}[1m"));
    assert_eq!(asked.stdout.replace("\u{1b}[1m", "").replace("\u{1b}[0m", ""), plain.stdout);
    let refused = Program::new().line(QUICK).set("NO_COLOR", "1").set("TERM", "xterm-256color").run();
    assert_eq!(refused, *plain);
}

#[rstest]
#[case(QUICK)]
#[case("plan --type off-road -c 57.5cm --format json")]
#[case("fit wexmarsh-one -c 57.5cm")]
#[case("fit wexmarsh-one -c 57.5cm --format json")]
fn the_same_command_gives_the_same_bytes_anywhere(#[case] line: &str) {
    let here = once(line);
    let folder = Folder::new();
    let there = Program::new()
        .line(line)
        .inside(folder.path())
        .set("HOME", folder.path())
        .set("LANG", "de_DE.UTF-8")
        .set("LC_ALL", "tr_TR.UTF-8")
        .set("TZ", "Asia/Kathmandu")
        .set("COLUMNS", "40")
        .run();
    assert_eq!(there, *here);
    assert_eq!(folder.run(line), *here);
}

#[test]
fn a_reader_that_goes_away_is_no_error() {
    let folder = Folder::new();
    let mut child = Program::new().line(QUICK).command(folder.path()).spawn().expect("the program starts");
    drop(child.stdout.take());
    let output = child.wait_with_output().expect("the program ends");
    assert_eq!(String::from_utf8_lossy(&output.stderr), "");
    assert_eq!(output.status.code(), Some(0));
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_is_told() {
    let folder = Folder::new();
    let full = std::fs::OpenOptions::new().write(true).open("/dev/full").expect("Linux has a full disk");
    let output = Program::new().line(QUICK).command(folder.path()).stdout(full).output().expect("the program starts");
    assert!(String::from_utf8_lossy(&output.stderr).contains("can't write the output"));
    assert_eq!(output.status.code(), Some(2));
}

#[rstest]
#[case("--help", &["plan", "fit", "Examples:"])]
#[case("plan --help", &["Head (", "Helmets:", "Plan:", "General:", "Examples:", "--circumference", "--out-of-stock"])]
#[case("plan -h", &["Head (", "Helmets:", "Plan:", "General:", "Examples:", "--circumference", "--out-of-stock"])]
#[case("fit --help", &["MODEL", "--size", "Head (", "General:", "Examples:"])]
#[case("fit -h", &["MODEL", "--size", "Head (", "General:", "Examples:"])]
fn help_groups_the_options_and_shows_examples(#[case] line: &str, #[case] parts: &[&str]) {
    let run = lidladder(line);
    let help = run.good();
    for part in parts {
        assert!(help.contains(part), "{part:?} is missing from {help}");
    }
    for line in help.lines() {
        assert!(line.width() <= 80, "{} columns: {line:?}", line.width());
        assert!(!line.contains('\u{1b}'), "{line:?}");
    }
}

#[test]
fn every_example_of_the_help_works() {
    let help = lidladder("plan --help").stdout;
    let examples: Vec<&str> = help.lines().filter_map(|line| line.strip_prefix("  lidladder ")).collect();
    assert!(examples.len() >= 4, "{help}");
    for example in examples {
        let run = once(&example.replace('\'', ""));
        assert_eq!((run.status, run.stderr.as_str()), (0, ""), "{example}");
    }
}

#[test]
fn the_version_is_that_of_the_package() {
    assert_eq!(lidladder("--version").good(), format!("lidladder {}\n", env!("CARGO_PKG_VERSION")));
}

#[test]
fn a_document_has_the_fields_that_programs_rely_on() {
    let document = document("plan -c 57.5cm");
    assert_eq!(document["schema"], "lidladder.plan/1");
    has(&document, &["head", "ranking", "plan", "warnings", "cautions"]);
    has(&document["head"]["measured"][0], &["measure", "value_mm", "sd_mm"]);
    let five = ["circumference_mm", "length_mm", "breadth_mm", "face_width_mm", "shape_index"];
    for summary in ["mean", "sd"] {
        has_exactly(&document["head"]["estimate"][summary], &five);
        assert!(five.iter().all(|field| document["head"]["estimate"][summary][*field].is_f64()));
    }
    let ranking = document["ranking"].as_array().expect("a list");
    assert!(ranking.len() > 10);
    for row in ranking {
        has(row, &["model", "size", "fit_probability", "pads", "minutes"]);
        has_pads(&row["pads"]);
    }
    let plan = &document["plan"];
    has(plan, &["expected_tries", "expected_minutes", "no_fit_probability", "optimality", "first"]);
    has(&plan["optimality"], &["kind", "gap"]);
    let mut steps = 0;
    each_step(&plan["first"], 1, &mut |step, _| {
        steps += 1;
        has(step, &["model", "size", "fit_probability", "start_pads", "bring_pads", "minutes", "on"]);
        has_pads(&step["start_pads"]);
        for branch in step["on"].as_array().expect("a list") {
            has(branch, &["reason", "probability", "source", "next"]);
            let source = branch["source"].as_str().expect("a word");
            assert_eq!(source == "none", branch["next"].is_null(), "{branch}");
            assert!(matches!(source, "none" | "shop" | "computed"), "{branch}");
        }
    });
    assert!(steps > 3);
}

#[test]
fn a_ranking_goes_down_and_its_probabilities_are_some() {
    let document = document("plan -c 57.5cm");
    let chances: Vec<f64> = numbers(&document["ranking"], "fit_probability");
    // Judged on other heads than those that put the rows in order: neighbours may be swapped by the sampling error.
    let error = numbers(&document["ranking"], "fit_probability_error").into_iter().fold(0.0, f64::max);
    assert!(chances.windows(2).all(|pair| pair[0] + 2.0 * error >= pair[1]), "{chances:?}");
    assert!(chances.iter().all(|chance| (0.0..=1.0).contains(chance)));
}

#[rstest]
#[case("plan -c 57.5cm")]
#[case("plan -c 61cm -b 150 --type full-face")]
#[case("plan --type open-face")]
fn what_can_happen_adds_up_to_one(#[case] line: &str) {
    let document = document(line);
    let words = &document["head"]["shape_words"];
    let words = ["long_oval", "intermediate_oval", "round_oval"].map(|word| number(&words[word]));
    near(words.iter().sum(), 1.0, 3e-4, "the three shapes");
    let mut without = 0.0;
    each_step(&document["plan"]["first"], 1, &mut |step, _| {
        let reached = number(&step["reach_probability"]);
        let mut sum = number(&step["fit_probability"]);
        for branch in step["on"].as_array().expect("a list") {
            let chance = number(&branch["probability"]);
            sum += chance;
            match &branch["next"] {
                Value::Null => without += reached * chance,
                next => near(number(&next["reach_probability"]), reached * chance, 2e-4, "reaching the next step"),
            }
        }
        near(sum, 1.0, 1e-3, &format!("a fit and every failure of {step}"));
    });
    near(number(&document["plan"]["no_fit_probability"]), without, 2e-3, "ending without a fit");
}

#[test]
fn page_and_document_say_the_same() {
    let (page, document) = (once("plan -c 57.5cm"), document("plan -c 57.5cm"));
    let plan = &document["plan"];
    let words = page.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    for part in [
        format!("Expected: {:.2}±", number(&plan["expected_tries"])),
        format!("At most {:.1} % above a lower bound", 100.0 * number(&plan["optimality"]["gap"])),
        format!(
            " in {} - fits {:.0} %, ",
            text(&plan["first"]["size"]),
            100.0 * number(&plan["first"]["fit_probability"])
        ),
    ] {
        assert!(words.contains(&part), "{part:?} is missing from {words}");
    }
    // Both are rounded from the same figure, the page to tenths and the document to hundredths.
    let minutes = words.split(" helmets tried, ").nth(1).and_then(|rest| rest.split('±').next()).expect("minutes");
    near(minutes.parse().expect("a number"), number(&plan["expected_minutes"]), 0.0551, "minutes of page and document");
    assert_eq!(plan["optimality"]["kind"], "bounded");
}

#[test]
fn the_built_in_range_is_the_folder_profiles() {
    let run = Program::new().line(QUICK).arguments(["--profiles", "profiles"]).inside(root()).run();
    assert_eq!(run, *once(QUICK));
}

fn document(line: &str) -> Value {
    let run: std::sync::Arc<Run> = once(&format!("{line} --format json"));
    assert_eq!(run.status, 0, "{}", run.stdout);
    run.document()
}

/// Visits every step of a plan with its depth, the first being 1.
fn each_step(step: &Value, depth: usize, visit: &mut dyn FnMut(&Value, usize)) {
    visit(step, depth);
    for branch in step["on"].as_array().expect("a list") {
        if !branch["next"].is_null() {
            each_step(&branch["next"], depth + 1, visit);
        }
    }
}

#[track_caller]
fn has(value: &Value, fields: &[&str]) {
    let group = value.as_object().unwrap_or_else(|| panic!("{value} is no group"));
    assert!(fields.iter().all(|field| group.contains_key(*field)), "{fields:?} are not all in {value}");
}

#[track_caller]
fn has_exactly(value: &Value, fields: &[&str]) {
    has(value, fields);
    assert_eq!(value.as_object().map(serde_json::Map::len), Some(fields.len()), "{value}");
}

#[track_caller]
fn has_pads(value: &Value) {
    has(value, &["brow", "rear", "sides"]);
    let mm = value.as_object().expect("a group").values().map(number);
    assert!(mm.into_iter().all(|mm| (1.0..=60.0).contains(&mm)), "{value}");
}

#[track_caller]
fn near(found: f64, wanted: f64, tolerance: f64, what: &str) {
    assert!((found - wanted).abs() <= tolerance, "{what}: {found}, wanted {wanted} within {tolerance}");
}

#[track_caller]
fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

fn numbers(rows: &Value, field: &str) -> Vec<f64> {
    rows.as_array().expect("a list").iter().map(|row| number(&row[field])).collect()
}

#[track_caller]
fn text(value: &Value) -> &str {
    value.as_str().unwrap_or_else(|| panic!("{value} is no text"))
}

fn strings(list: &Value) -> Vec<&str> {
    list.as_array().expect("a list").iter().map(text).collect()
}
