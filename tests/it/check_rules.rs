//! Every rule about profiles finds what it is for, and nothing else: each code has a folder in `tests/rules` with a bad
//! and a near-miss good set.
//!
//! A set is `tests/rules/base` (with the demo range's `shop.yaml` and populations) under the files of the fixture. What
//! `check` must find stands in these files as comments, and is compared as an exact set:
//!
//! ```yaml
//!   circumference_cm: [59, 60]
//!   #                 ^^^^^^^^ size-gap
//! ```
//!
//! The signs stand under the place, on the line below it. `#< code` marks a place in the first column, where no sign can
//! stand, and `# no place: code` a finding without one.

use crate::support::{Folder, Program, files_below, root};
use itertools::Itertools;
use lidladder::catalogue::AGREEMENTS;
use lidladder::check::RULES;
use rstest::rstest;
use serde_json::Value;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// A finding: file, line, first column, one past the last column (0 where it isn't marked), code. A finding without a
/// place has an empty file.
type Found = (String, usize, usize, usize, String);

/// Codes that no fixture can show, and where else they are looked for.
const ELSEWHERE: &[(&str, &str)] = &[
    ("profile-unreadable", "a file that isn't there: wrong_input/files.rs"),
    ("yaml-too-large", "a file of over 4 MiB: wrong_input/files.rs"),
    ("profile-too-large", "a folder of too many files: wrong_input/hostile.rs"),
    ("profile-too-many", "lists longer than anybody needs: wrong_input/hostile.rs"),
    ("profile-kind", "a file outside of any folder: check_command.rs"),
];

fn rules() -> PathBuf {
    root().join("tests/rules")
}

/// The names of the fixtures: codes.
fn fixtures() -> Vec<String> {
    let entries = fs::read_dir(rules()).expect("the fixtures are there");
    let names = entries.map(|entry| entry.expect("a folder can be read").file_name().to_string_lossy().into_owned());
    names.filter(|name| name != "base").sorted().collect()
}

/// A folder with the set of a fixture in `set`.
fn set_of(code: &str, which: &str) -> Folder {
    let folder = Folder::new();
    let parts = [
        (root().join("profiles"), vec!["shop.yaml", "populations"]),
        (rules().join("base"), vec![""]),
        (rules().join(code).join(which), vec![""]),
    ];
    for (from, names) in parts {
        for name in names {
            lay(&from.join(name), &from, &folder.path().join("set"));
        }
    }
    folder
}

/// Copies a file, or all files below a folder, over what is there.
fn lay(what: &Path, from: &Path, to: &Path) {
    let files = if what.is_dir() { files_below(what) } else { vec![what.to_owned()] };
    for file in files {
        let target = to.join(file.strip_prefix(from).expect("it lies below"));
        fs::create_dir_all(target.parent().expect("it lies in a folder")).expect("a folder can be made");
        fs::copy(&file, &target).expect("a fixture can be copied");
    }
}

/// What the comments of a set of files say.
fn expected_in(folder: &Path) -> BTreeSet<Found> {
    let mut expected = BTreeSet::new();
    for file in files_below(folder) {
        let name = file.strip_prefix(folder).expect("it lies below").to_string_lossy().replace('\\', "/");
        // One fixture is no UTF-8; its comments are.
        let bytes = fs::read(&file).expect("a fixture can be read");
        expected.extend(comments(&name, &String::from_utf8_lossy(&bytes)));
    }
    expected
}

fn comments(file: &str, text: &str) -> Vec<Found> {
    let mut found = Vec::new();
    let mut marked = 0;
    for (line, number) in text.lines().zip(1..) {
        let Some(words) = line.trim_start().strip_prefix('#') else {
            marked = number;
            continue;
        };
        if let Some(code) = words.strip_prefix("< ") {
            found.push((format!("set/{file}"), marked, 1, 0, code.to_owned()));
        } else if let Some(code) = words.strip_prefix(" no place: ") {
            found.push((String::new(), 0, 0, 0, code.to_owned()));
        } else if words.trim_start().starts_with('^') {
            let start = line.chars().position(|c| c == '^').expect("it begins with it") + 1;
            let length = line.chars().skip(start - 1).take_while(|c| *c == '^').count();
            let code = words.trim_start().trim_start_matches('^').trim();
            found.push((format!("set/{file}"), marked, start, start + length, code.to_owned()));
        } else {
            marked = number;
        }
    }
    found
}

fn findings(folder: &Folder) -> BTreeSet<Found> {
    let run = Program::new().line("check set --format json").inside(folder.path()).run();
    let document = run.document();
    let findings = document["findings"].as_array().expect("a list").iter();
    let found: Vec<Found> = findings.map(|finding| found(finding, folder)).collect();
    let set: BTreeSet<Found> = found.iter().cloned().collect();
    assert_eq!(set.len(), found.len(), "something is told twice: {found:?}");
    set
}

fn found(finding: &Value, folder: &Folder) -> Found {
    let code = finding["code"].as_str().expect("a text").to_owned();
    let place = &finding["place"];
    let Some(file) = place["file"].as_str() else { return (String::new(), 0, 0, 0, code) };
    let number = |key: &str| usize::try_from(place[key].as_u64().expect("a number")).expect("a small one");
    let (line, column) = (number("line"), number("column"));
    // The signs stand under the first line of a place.
    let end = if number("end_line") == line { number("end_column") } else { line_end(folder, file, line) };
    (file.to_owned(), line, column, if column == 1 { 0 } else { end }, code)
}

fn line_end(folder: &Folder, file: &str, line: usize) -> usize {
    let text = fs::read_to_string(folder.path().join(file)).expect("it was checked");
    text.lines().nth(line - 1).map_or(1, |line| line.chars().count() + 1)
}

#[test]
fn the_base_is_in_order() {
    assert_eq!(findings(&set_of("base", "")), BTreeSet::new());
}

#[test]
fn bad_sets_have_the_findings_that_they_say() {
    for code in fixtures() {
        let expected = expected_in(&rules().join(&code).join("bad"));
        assert!(expected.iter().any(|found| found.4 == code), "{code}/bad expects no {code}");
        assert_eq!(findings(&set_of(&code, "bad")), expected, "tests/rules/{code}/bad");
    }
}

/// 25 mistakes of 25 kinds in one set, all found in one run.
#[test]
fn many_mistakes_are_found_in_one_run() {
    let folder = Folder::new();
    let many = root().join("tests/many-mistakes");
    lay(&many, &many, &folder.path().join("set"));
    let expected = expected_in(&many);
    assert_eq!(expected.len(), 25);
    assert_eq!(expected.iter().map(|found| &found.4).unique().count(), 25);
    assert_eq!(findings(&folder), expected);
}

#[test]
fn good_sets_that_come_near_have_none() {
    for code in fixtures() {
        assert_eq!(findings(&set_of(&code, "good")), BTreeSet::new(), "tests/rules/{code}/good");
        assert!(!files_below(&rules().join(&code).join("good")).is_empty(), "tests/rules/{code}/good is the base");
    }
}

/// Codes that the source of these modules names.
fn codes_of(modules: &[&str]) -> BTreeSet<String> {
    let sources = files_below(&root().join("src")).into_iter().filter(|path| {
        let name = path.strip_prefix(root().join("src")).expect("it lies below").to_string_lossy().into_owned();
        modules.iter().any(|module| name.starts_with(module))
    });
    sources.flat_map(|path| crate::docs::codes(&fs::read_to_string(path).expect("a source"))).collect()
}

#[test]
fn every_code_about_profiles_has_a_pair_of_fixtures() {
    let mut codes = codes_of(&["catalogue", "check", "profile"]);
    for (code, why) in ELSEWHERE {
        assert!(codes.remove(*code), "{code} ({why}) is no code");
    }
    assert_eq!(fixtures().into_iter().collect::<BTreeSet<_>>(), codes);
}

/// A rule stands in a file of its name, and nothing else does.
#[rstest]
#[case("src/check", RULES.iter().map(|rule| rule.code.0).collect(), &["parts", "sample"])]
#[case("src/catalogue/agree", AGREEMENTS.iter().map(|agreement| agreement.code.0).collect(), &[])]
fn rules_stand_in_files_of_their_names(#[case] folder: &str, #[case] codes: Vec<&str>, #[case] others: &[&str]) {
    assert!(codes.is_sorted(), "{codes:?} are not in order");
    let files = files_below(&root().join(folder));
    let files = files.iter().map(|path| path.file_stem().expect("a file has a name").to_string_lossy().into_owned());
    let rules = files.filter(|name| !others.contains(&name.as_str())).map(|name| name.replace('_', "-"));
    assert_eq!(rules.collect::<BTreeSet<_>>(), codes.into_iter().map(str::to_owned).collect());
}

#[test]
fn comments_are_read_as_they_stand() {
    let text = "a:\n  b: 1\n  #  ^ one\n  # ^^ two\n# words\nc: 2\n#< three\n# no place: four\n";
    let of_file = |line, start, end, code: &str| ("set/f".to_owned(), line, start, end, code.to_owned());
    let without = (String::new(), 0, 0, 0, "four".to_owned());
    assert_eq!(
        comments("f", text),
        [of_file(2, 6, 7, "one"), of_file(2, 5, 7, "two"), of_file(6, 1, 0, "three"), without]
    );
}
