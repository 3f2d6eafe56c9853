//! `check`: what it looks at, what it says, and how it ends.

use crate::support::{Folder, Program, Run, files_below, lidladder, once, root};
use rstest::rstest;
use serde_json::Value;
use std::collections::BTreeSet;
use std::fs;

const MUD: &str = "profiles/helmets/dunvarrick.yaml";

fn codes(document: &Value) -> Vec<String> {
    let findings = document["findings"].as_array().expect("a list");
    findings.iter().map(|finding| finding["code"].as_str().expect("a text").to_owned()).collect()
}

/// `file:line:column code` of each finding.
fn places(document: &Value) -> Vec<String> {
    let findings = document["findings"].as_array().expect("a list");
    let told = |finding: &Value| {
        let place = &finding["place"];
        let code = finding["code"].as_str().expect("a text");
        match place["file"].as_str() {
            Some(file) => format!("{file}:{}:{} {code}", place["line"], place["column"]),
            None => code.to_owned(),
        }
    };
    findings.iter().map(told).collect()
}

fn json(folder: &Folder, line: &str) -> Run {
    folder.run(&format!("{line} --format json"))
}

#[test]
fn the_demo_range_has_two_bad_rules_and_nothing_else() {
    let run = once("check --format json");
    let document = run.document();
    assert_eq!(codes(&document), ["rule-against-geometry", "rule-against-geometry"]);
    assert_eq!((&document["errors"], &document["warnings"]), (&Value::from(0), &Value::from(2)));
    assert_eq!(run.status, 1);
    let looked_at = &document["checked"];
    assert_eq!(looked_at["files"], 11);
    assert_eq!(looked_at["models"], 16);
    assert_eq!(looked_at["populations"], 3);
}

#[test]
fn a_clean_set_ends_with_zero_and_says_so() {
    let folder = Folder::with_profiles();
    for (rule, better) in [
        ("from: wexmarsh-two-flip, reason: too-round, to: haspenfell-lift", "lantreth-longways"),
        ("from: dunvarrick-gravel, reason: temples-press, to: umberlow-drove", "wexmarsh-two-flip"),
    ] {
        let (start, _) = rule.rsplit_once(' ').expect("the target is its last word");
        folder.edit("profiles/fallbacks.yaml", rule, &format!("{start} {better}"));
    }
    let run = folder.run("check profiles");
    assert_eq!((run.status, run.stderr.as_str()), (0, ""), "{}", run.stdout);
    assert_eq!(run.stdout, "11 files with 16 models, 86 rules, 3 populations: nothing to complain about\n");
}

#[test]
fn findings_stand_on_standard_output_with_a_line_that_counts_them() {
    let run = once("check");
    assert_eq!((run.status, run.stderr.as_str()), (1, ""));
    assert!(run.stdout.ends_with("\n11 files with 16 models, 86 rules, 3 populations: 2 warnings\n"), "{}", run.stdout);
    assert!(!run.stdout.contains('\u{1b}'), "no colours without a terminal");
    assert!(run.stdout.lines().all(|line| line.chars().count() <= 80), "{}", run.stdout);
}

#[test]
fn strict_makes_errors_of_warnings() {
    let run = once("check --strict --format json");
    let document = run.document();
    assert_eq!((&document["errors"], &document["warnings"]), (&Value::from(2), &Value::from(0)));
    assert_eq!(run.status, 1);
    assert!(lidladder("check --strict").stdout.contains("error[rule-against-geometry]"));
}

#[test]
fn problems_of_every_file_come_in_one_run_in_order_of_place() {
    let folder = Folder::with_profiles();
    let edits = [
        ("profiles/shop.yaml", "currency: EUR", "currency: euro", 10, "profile-currency"),
        ("profiles/shop.yaml", "misreport: 0.08 ", "misreport: often ", 11, "profile-type"),
        (
            "profiles/fallbacks.yaml",
            "wexmarsh-one, reason: too-noisy",
            "wexmarsh-one, reason: too-nosy",
            22,
            "unknown-reason",
        ),
        (MUD, "maker: Orveld", "makr: Orveld", 0, "profile-unknown-key"),
        (MUD, "mass_g: 1610", "mass_g: 161", 8, "profile-bounds"),
    ];
    let mut expected = Vec::new();
    for (file, old, new, offset, code) in edits {
        let (line, column) = folder.edit(file, old, new);
        expected.push(format!("{file}:{line}:{} {code}", column + offset));
    }
    let mut found = places(&json(&folder, "check profiles").document());
    // The demo range has two bad rules; the other one is about a model that can't be trusted here.
    found.retain(|place| !place.ends_with(" rule-against-geometry"));
    assert_eq!(found, expected);
}

#[test]
fn a_file_of_a_folder_is_held_against_the_rest_but_only_its_findings_are_told() {
    let folder = Folder::with_profiles();
    folder.edit(MUD, "mass_g: 1610", "mass_g: 161");
    folder.edit("profiles/shop.yaml", "currency: EUR", "currency: euro");
    let run = json(&folder, &format!("check {MUD}"));
    assert!(places(&run.document()).iter().all(|place| place.starts_with(MUD)), "{:?}", places(&run.document()));
    assert_eq!(codes(&run.document()), ["profile-bounds"]);
    let rules = json(&folder, "check profiles/fallbacks.yaml").document();
    assert!(!codes(&rules).contains(&"unknown-model".to_owned()), "its models are known: {rules}");
}

#[test]
fn a_file_outside_of_any_folder_is_looked_at_by_itself() {
    let folder = Folder::with_profiles();
    let lantreth = fs::read_to_string(root().join("profiles/helmets/lantreth.yaml")).expect("part of the demo range");
    folder.write("mine.yaml", lantreth.replacen("circumference_cm: [57, 58]", "circumference_cm: [58, 57]", 1));
    let run = json(&folder, "check mine.yaml");
    assert_eq!(codes(&run.document()), ["profile-order"]);
    assert_eq!(run.document()["checked"]["files"], 1);
    folder.write("rules.yaml", fs::read(root().join("profiles/fallbacks.yaml")).expect("part of the demo range"));
    let run = json(&folder, "check rules.yaml");
    assert_eq!(codes(&run.document()), Vec::<String>::new(), "names of other files are taken to be there");
    assert_eq!(run.status, 0);
    let both = json(&folder, "check rules.yaml mine.yaml").document();
    assert!(codes(&both).contains(&"unknown-model".to_owned()), "with helmets beside them, they are looked up: {both}");
}

#[test]
fn what_a_file_is_about_must_be_told() {
    let folder = Folder::new();
    folder.write("letter.yaml", "dear: customer\n");
    let run = json(&folder, "check letter.yaml");
    assert_eq!(codes(&run.document()), ["profile-kind"]);
    assert_eq!(run.status, 1);
    let text = folder.run("check letter.yaml").stdout;
    assert!(text.ends_with("\n0 files: 1 error\n"), "{text}");
}

#[rstest]
#[case("nowhere")]
#[case("nowhere/helmets/new.yaml")]
fn what_can_not_be_read_ends_with_two(#[case] path: &str) {
    let run = json(&Folder::new(), &format!("check {path}"));
    assert_eq!(codes(&run.document()), ["profile-unreadable"]);
    assert_eq!(run.status, 2);
}

#[test]
fn several_folders_are_checked_in_one_run() {
    let folder = Folder::with_profiles();
    folder.edit("profiles/shop.yaml", "currency: EUR", "currency: euro");
    let other = root().join("profiles");
    let run = Program::new().line("check profiles --format json").arguments([&other]).inside(folder.path()).run();
    let document = run.document();
    assert_eq!(document["checked"]["models"], 32);
    let mut codes = codes(&document);
    codes.sort();
    assert_eq!(
        codes,
        [
            "profile-currency",
            "rule-against-geometry",
            "rule-against-geometry",
            "rule-against-geometry",
            "rule-against-geometry"
        ]
    );
}

#[test]
fn the_folder_of_the_environment_is_checked_without_a_path() {
    let folder = Folder::with_profiles();
    folder.edit("profiles/shop.yaml", "currency: EUR", "currency: euro");
    let run =
        Program::new().line("check --format json").set("LIDLADDER_PROFILES", "profiles").inside(folder.path()).run();
    assert!(codes(&run.document()).contains(&"profile-currency".to_owned()));
}

/// The names of files decide nothing but the order in which findings are told.
#[test]
fn other_names_of_files_change_no_finding() {
    let folder = Folder::with_profiles();
    folder.edit(MUD, "mass_g: 1610", "mass_g: 2310");
    let told = |document: &Value| -> BTreeSet<String> {
        let findings = document["findings"].as_array().expect("a list").iter();
        findings.map(|finding| format!("{} {}", finding["code"], finding["message"])).collect()
    };
    let before = told(&json(&folder, "check profiles").document());
    let helmets = folder.path().join("profiles/helmets");
    for (number, file) in files_below(&helmets).iter().rev().enumerate() {
        fs::rename(file, helmets.join(format!("{number}.yaml"))).expect("a file can be renamed");
    }
    assert_eq!(told(&json(&folder, "check profiles").document()), before);
    assert!(before.len() > 2, "{before:?}");
}

#[test]
fn the_same_check_gives_the_same_bytes() {
    assert_eq!(lidladder("check").stdout, once("check").stdout);
}
