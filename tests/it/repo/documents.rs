//! Documents: their links lead somewhere, what they show is checked, and nothing names a machine.

use super::name;
use crate::support::{files_below, lidladder, root};
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// Every text of the repository.
fn texts() -> Vec<(PathBuf, String)> {
    let all = files_below(root()).into_iter();
    all.filter_map(|path| fs::read_to_string(&path).ok().map(|text| (path, text))).collect()
}

fn documents() -> Vec<(PathBuf, String)> {
    texts().into_iter().filter(|(path, _)| path.extension().is_some_and(|ext| ext == "md")).collect()
}

/// The text outside of fenced blocks, line by line.
fn prose(text: &str) -> String {
    let mut is_inside = false;
    let mut lines = Vec::new();
    for line in text.lines() {
        if line.trim_start().starts_with("```") {
            is_inside = !is_inside;
        } else if !is_inside {
            lines.push(line);
        }
    }
    lines.join("\n")
}

/// Fenced blocks of these languages.
fn blocks(text: &str, languages: &[&str]) -> Vec<String> {
    let mut found = Vec::new();
    let mut lines = text.lines();
    while let Some(line) = lines.next() {
        let Some(language) = line.trim_start().strip_prefix("```") else { continue };
        let body: Vec<&str> = lines.by_ref().take_while(|line| !line.trim_start().starts_with("```")).collect();
        if languages.contains(&language) {
            found.push(body.join("\n"));
        }
    }
    found
}

/// Where inline links lead: what stands in `](...)`.
fn links(text: &str) -> Vec<String> {
    let targets = text.split("](").skip(1).filter_map(|rest| rest.split_once(')'));
    targets.map(|(target, _)| target.split_whitespace().next().unwrap_or_default().to_owned()).collect()
}

/// Headings as a page names them in links.
fn anchors(text: &str) -> BTreeSet<String> {
    let headings = prose(text);
    let headings = headings.lines().filter(|line| line.starts_with('#'));
    headings.map(|line| slug(line.trim_start_matches('#').trim())).collect()
}

fn slug(heading: &str) -> String {
    let kept = heading.chars().filter(|c| c.is_alphanumeric() || matches!(c, ' ' | '-' | '_'));
    kept.flat_map(char::to_lowercase).map(|c| if c == ' ' { '-' } else { c }).collect()
}

#[test]
fn links_between_documents_lead_somewhere() {
    let mut broken = Vec::new();
    for (path, text) in documents() {
        for link in links(&prose(&text)) {
            if link.contains("://") || link.starts_with("mailto:") {
                continue;
            }
            let (file, anchor) =
                link.split_once('#').map_or((link.as_str(), None), |(file, anchor)| (file, Some(anchor)));
            let target = match file {
                "" => path.clone(),
                file => path.parent().expect("it lies in a folder").join(file),
            };
            let is_good = match (fs::read_to_string(&target), anchor) {
                (Ok(text), Some(anchor)) => anchors(&text).contains(anchor),
                (Err(_), Some(_)) => false,
                (_, None) => target.exists(),
            };
            if !is_good {
                broken.push(format!("{}: {link}", name(&path)));
            }
        }
    }
    assert_eq!(broken, Vec::<String>::new());
}

/// `docs.rs` runs what a document shows; here it is only seen to that it knows every such document.
#[test]
fn every_document_that_shows_output_is_checked() {
    let checked = fs::read_to_string(root().join("tests/it/docs.rs")).expect("the check is there");
    for (path, text) in documents() {
        if !blocks(&text, &["console"]).is_empty() {
            assert!(checked.contains(&format!("#[case(\"{}\")]", name(&path))), "{} is not checked", name(&path));
        }
    }
}

/// Commands that are shown without their output: their options at least exist.
#[test]
fn options_in_shown_commands_exist() {
    let commands = [
        "plan",
        "counter",
        "drill",
        "fit",
        "fallbacks",
        "fallbacks audit",
        "cards",
        "check",
        "init",
        "schema",
        "range",
        "range keep",
        "range design",
        "range stock",
        "range maker",
        "range windows",
        "sketch",
        "journal",
        "journal verify",
        "journal add",
        "learn",
        "pads",
        "away",
        "away order",
        "away sheet",
    ];
    let known = commands.map(|command| format!("{command} --help")).map(|line| lidladder(&line).stdout).concat();
    for (path, text) in documents() {
        for block in blocks(&text, &["sh", "console", "bash", "shell"]) {
            let commands = block.lines().map(|line| line.trim_start_matches("$ "));
            for command in commands.filter(|line| line.starts_with("lidladder ")) {
                for word in command.split_whitespace().filter(|word| word.starts_with("--") && word.len() > 2) {
                    let option = word.split('=').next().unwrap_or_default();
                    let is_known = known.contains(&format!("{option} ")) || matches!(option, "--help" | "--version");
                    assert!(is_known, "{}: {command}: {option} is no option", name(&path));
                }
            }
        }
    }
}

/// Folders that only the machine of a writer has.
#[test]
fn no_text_names_a_path_of_a_machine() {
    // In two parts, so that this file holds none itself.
    let folders = [("/wor", "k/"), ("/roo", "t/"), ("/tm", "p/"), ("/ho", "me/"), ("/User", "s/"), ("C:", "\\")];
    for (path, text) in texts() {
        for (start, end) in folders {
            let folder = [start, end].concat();
            for (at, _) in text.match_indices(&folder) {
                // Such a folder deep in some project, or in the address of a page, is none of this machine.
                let is_part =
                    text[..at].ends_with(|c: char| c.is_alphanumeric() || matches!(c, '.' | '_' | '-' | '}' | ')'));
                assert!(is_part, "{} names {folder}", name(&path));
            }
        }
    }
}

#[test]
fn the_reading_of_documents_finds_what_is_there() {
    let text = "# A b, c!\n[x](y.md#z \"t\") `[n](o)`\n```sh\nlidladder plan\n# no\n```\n## D";
    assert_eq!(anchors(text), BTreeSet::from(["a-b-c".to_owned(), "d".to_owned()]));
    assert_eq!(links(&prose(text))[0], "y.md#z");
    assert_eq!(blocks(text, &["sh"]), ["lidladder plan\n# no"]);
    assert_eq!(name(Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/x.md").as_path()), "docs/x.md");
}
