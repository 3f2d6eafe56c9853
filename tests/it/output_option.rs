//! `--output`: what goes into a file, and what is left alone.

use crate::support::{Folder, Program, once};
use rstest::rstest;
use std::fs;
use std::path::Path;

const RULES: &str = "fallbacks --from wexmarsh-one";

fn read(folder: &Folder, file: &str) -> String {
    fs::read_to_string(folder.path().join(file)).expect("the file is there")
}

/// Names of all that lies in a folder.
fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).expect("the folder can be read");
    let name =
        |entry: std::io::Result<fs::DirEntry>| entry.expect("an entry").file_name().to_string_lossy().into_owned();
    let mut names: Vec<String> = entries.map(name).collect();
    names.sort();
    names
}

#[rstest]
#[case::page("rules.html", "html")]
#[case::page_of_old("rules.HTM", "html")]
#[case::picture("rules.svg", "svg")]
#[case::document("rules.json", "json")]
#[case::graph("rules.dot", "dot")]
#[case::text("rules", "text")]
#[case::text_by_its_name("rules.txt", "text")]
fn the_ending_says_the_format_and_the_file_is_what_would_be_shown(#[case] file: &str, #[case] format: &str) {
    let folder = Folder::new();
    let run = folder.run(&format!("{RULES} -o {file}"));
    assert_eq!(run.good(), "");
    assert_eq!(read(&folder, file), once(&format!("{RULES} --format {format}")).stdout);
    assert_eq!(names(folder.path()), [file], "no draft is left");
}

#[rstest]
#[case("cards quorrie-plain --heads 1000 --output cards.md", "markdown")]
#[case("range windows -o boxes.csv", "")]
#[case("away sheet --format html -o sheet.html", "html")]
fn other_commands_have_it_too(#[case] line: &str, #[case] format: &str) {
    let folder = Folder::new();
    assert_eq!(folder.run(line).good(), "");
    let (command, file) = line.rsplit_once(" -").expect("the option");
    let shown = match format {
        "" => once(command),
        _ if command.contains("--format") => once(command),
        _ => once(&format!("{command} --format {format}")),
    };
    assert_eq!(read(&folder, file.rsplit(' ').next().expect("a name")), shown.stdout);
}

#[test]
fn a_file_has_no_colours_and_a_dash_is_standard_output() {
    let folder = Folder::new();
    let run = |line: &str| Program::new().line(line).set("CLICOLOR_FORCE", "1").inside(folder.path()).run();
    let shown = run(&format!("{RULES} --output -"));
    assert!(shown.good().contains('\u{1b}'), "colours are forced");
    assert_eq!(run(&format!("{RULES} --output rules.txt")).good(), "");
    assert_eq!(read(&folder, "rules.txt"), once(RULES).stdout);
}

#[test]
fn a_finding_stays_one() {
    let folder = Folder::new();
    let run = folder.run("fallbacks --if ear-pinch --if turns-on-head -o none.json");
    let shown = once("fallbacks --if ear-pinch --if turns-on-head --format json");
    assert_eq!((run.status, run.stdout.as_str(), run.stderr.as_str()), (shown.status, "", ""));
    assert_eq!(read(&folder, "none.json"), shown.stdout);
}

#[rstest]
#[case("a.html", "fallbacks --if too-noisy -o a.html")]
#[case("a.svg", "fallbacks --if too-noisy -o a.svg")]
#[case("a.json", "pads wexmarsh-one M sides=9.5 -o a.json")]
fn what_lidladder_wrote_is_replaced_in_its_format(#[case] file: &str, #[case] again: &str) {
    let folder = Folder::new();
    assert_eq!(folder.run(&format!("{RULES} -o {file}")).good(), "");
    let before = read(&folder, file);
    assert_eq!(folder.run(again).good(), "");
    assert_ne!(read(&folder, file), before);
    assert_eq!(names(folder.path()), [file]);
}

#[rstest]
#[case::a_page_of_others("a.html", "<!DOCTYPE html>\n<html lang=\"en\"></html>\n")]
#[case::a_picture_of_others("a.svg", "<svg xmlns=\"http://www.w3.org/2000/svg\"></svg>\n")]
#[case::a_document_of_others("a.json", "{\n  \"schema\": \"other/1\"\n}\n")]
#[case::a_journal("a.json", "{\"schema\":\"lidladder.try/1\",\"customer\":1}\n")]
#[case::a_text("a.txt", "anything\n")]
#[case::nothing_in_it("a.html", "")]
fn what_others_wrote_is_left_alone(#[case] file: &str, #[case] text: &str) {
    let folder = Folder::new();
    folder.write(file, text);
    let run = folder.run(&format!("{RULES} -o {file}"));
    assert_eq!((run.status, run.stdout.as_str()), (2, ""));
    assert!(run.stderr.starts_with(&format!("error[output-exists]: {file} is there already")), "{}", run.stderr);
    assert_eq!((read(&folder, file).as_str(), names(folder.path())), (text, vec![file.to_owned()]));
}

#[test]
fn another_format_texts_and_folders_are_left_alone() {
    let folder = Folder::new();
    assert_eq!(folder.run(&format!("{RULES} --format html -o rules")).good(), "");
    assert_eq!(folder.run(&format!("{RULES} -o rules.txt")).good(), "");
    fs::create_dir(folder.path().join("box")).expect("it can be made");
    for line in ["--format json -o rules", "-o rules.txt", "-o box"] {
        let run = folder.run(&format!("{RULES} {line}"));
        assert!(run.status == 2 && run.stderr.starts_with("error[output-exists]"), "{line}: {}", run.stderr);
    }
    assert_eq!(names(folder.path()), ["box", "rules", "rules.txt"]);
}

#[test]
fn what_can_not_be_done_changes_nothing() {
    let folder = Folder::new();
    assert_eq!(folder.run(&format!("{RULES} -o rules.html")).good(), "");
    let before = read(&folder, "rules.html");
    let run = folder.run("fallbacks --from nobody -o rules.html");
    assert!(run.status == 2 && run.stderr.contains("error[unknown-model]"), "{}", run.stderr);
    assert_eq!(read(&folder, "rules.html"), before);
    let run = folder.run(&format!("{RULES} -o no-folder/rules.html"));
    assert!(run.status == 2 && run.stderr.starts_with("error[output-unwritable]"), "{}", run.stderr);
    let words = run.stderr.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words.contains("there is no folder no-folder"), "{words}");
    let protected = folder.path().join("rules.html");
    let mut permissions = fs::metadata(&protected).expect("the file is there").permissions();
    permissions.set_readonly(true);
    fs::set_permissions(&protected, permissions).expect("they can be set");
    let run = folder.run("fallbacks --if too-noisy -o rules.html");
    assert!(run.status == 2 && run.stderr.starts_with("error[output-unwritable]"), "{}", run.stderr);
    assert_eq!((read(&folder, "rules.html"), names(folder.path())), (before, vec!["rules.html".to_owned()]));
}

#[rstest]
#[case::typed("fallbacks --format dot -o a.svg", "called like svg, and the output is dot", "--format svg")]
#[case::not_there(
    "pads wexmarsh-one M sides=9.5 -o a.svg",
    "called like svg, and the output is text",
    "text, json, html"
)]
fn a_name_that_contradicts_the_format_is_told(#[case] line: &str, #[case] message: &str, #[case] help: &str) {
    let folder = Folder::new();
    let run = folder.run(line);
    assert_eq!((run.status, run.stdout.as_str()), (2, ""));
    let words = run.stderr.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words.starts_with(&format!("error[output-format]: a.svg is {message}")), "{words}");
    assert!(words.contains(help), "{words}");
    assert!(names(folder.path()).is_empty());
}

#[cfg(unix)]
#[test]
fn behind_a_link_the_file_is_replaced_and_the_link_stays() {
    use std::os::unix::fs::symlink;
    let folder = Folder::new();
    assert_eq!(folder.run(&format!("{RULES} -o real.html")).good(), "");
    let before = read(&folder, "real.html");
    symlink("real.html", folder.path().join("link.html")).expect("a link can be made");
    symlink("nowhere.html", folder.path().join("broken.html")).expect("a link can be made");
    assert_eq!(folder.run("fallbacks --if too-noisy -o link.html").good(), "");
    assert_ne!(read(&folder, "real.html"), before);
    assert!(folder.path().join("link.html").is_symlink());
    let run = folder.run(&format!("{RULES} -o broken.html"));
    assert!(run.status == 2 && run.stderr.starts_with("error[output-exists]"), "{}", run.stderr);
    assert_eq!(names(folder.path()), ["broken.html", "link.html", "real.html"]);
}
