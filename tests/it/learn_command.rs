//! `lidladder learn` as a shop meets it.

mod page;

use crate::support::{Folder, eighty_plain_columns, root};
use lidladder::catalogue::{Catalogue, Origin, load};
use lidladder::diag::Sources;
use rstest::rstest;
use serde_json::Value;
use std::fs;
use std::path::Path;

const YEAR: &str = "learn docs/examples/year/journal.jsonl";

#[rstest]
#[case(YEAR, 0)]
#[case("learn docs/examples/journal.jsonl --kept-apart latest", 0)]
#[case("learn docs/examples/doubtful.jsonl", 1)]
fn a_page_has_its_parts_in_eighty_plain_columns(#[case] line: &str, #[case] status: i32) {
    let run = Folder::for_documents().run(line);
    assert_eq!((run.status, run.stderr.as_str()), (status, ""), "{}", run.stdout);
    eighty_plain_columns(&run.stdout);
    let mut rest = run.stdout.as_str();
    for part in ["HEARD\n", "\nJUDGED ", "\nPROPOSED ", "\nHELMETS ", "\nREADINGS", "\nCAUTIONS\n"] {
        rest = rest.split_once(part).unwrap_or_else(|| panic!("{part:?} is missing from {rest}")).1;
    }
    assert!(!run.stdout.contains("-0.0") && !run.stdout.contains("NaN"), "{}", run.stdout);
}

#[test]
fn few_customers_change_nothing_and_the_page_says_so() {
    let run = Folder::for_documents().run("learn docs/examples/journal.jsonl");
    assert!(
        run.stdout.contains("too little to change anything") && run.stdout.contains("\n  None.\n"),
        "{}",
        run.stdout
    );
}

#[test]
fn what_is_left_out_is_told() {
    let folder = Folder::for_documents();
    let good = fs::read_to_string(root().join("docs/examples/journal.jsonl")).unwrap();
    let strange = good.replacen("\"model\":\"", "\"model\":\"old-", 1);
    folder.write("bad.jsonl", format!("{strange}no record\n"));
    let run = folder.run("learn bad.jsonl docs/examples/journal.jsonl --format json");
    assert_eq!(run.status, 1, "{}", run.stdout);
    let warnings = run.document()["warnings"].as_array().unwrap().clone();
    let messages: Vec<&str> = warnings.iter().filter_map(|warning| warning["message"].as_str()).collect();
    assert!(messages.iter().any(|m| m.contains("1 line is no record and is left out; line ")), "{messages:?}");
    assert!(messages.iter().any(|m| m.contains("1 try is of a helmet") && m.contains("old-")), "{messages:?}");
    assert!(messages.iter().any(|m| m.contains("twice, with the same tries")), "{messages:?}");
}

#[rstest]
#[case("learn nowhere.jsonl", "journal-unreadable")]
#[case("learn", "journal-unnamed")]
#[case("learn docs/examples/journal.jsonl --population nobody", "unknown-population")]
#[case("learn docs/examples/journal.jsonl --format patch", "nothing-to-patch")]
fn what_cannot_be_done_is_a_diagnostic(#[case] line: &str, #[case] code: &str) {
    let run = Folder::for_documents().run(line);
    assert_eq!((run.status, run.stdout.as_str()), (2, ""), "{}", run.stderr);
    assert!(run.stderr.contains(&format!("error[{code}]")), "{}", run.stderr);
}

fn index_of(profiles: &Path, model: &str) -> (f64, Option<f64>) {
    let catalogue: Catalogue = load(&Origin::Folder(profiles.to_owned()), &mut Sources::default()).expect("in order");
    let interior = catalogue.model(model).expect("a model").interior;
    (interior.shape_index, interior.sd)
}

/// Takes a unified diff over, line by line, as the common tools do.
fn take_over(folder: &Path, diff: &str) {
    let mut parts = diff.split("--- ").skip(1);
    for part in &mut parts {
        let (_, rest) = part.split_once('\n').expect("a line for the old file");
        let (new, hunks) = rest.split_once('\n').expect("a line for the new file");
        let path = folder.join(new.trim_start_matches("+++ b/"));
        let old: Vec<String> = fs::read_to_string(&path).unwrap_or_default().lines().map(str::to_owned).collect();
        let (mut made, mut at) = (Vec::new(), 0);
        for line in hunks.lines() {
            if let Some(ranges) = line.strip_prefix("@@ -") {
                let first: usize = ranges.split(',').next().and_then(|n| n.parse().ok()).expect("a number");
                made.extend(old[at..first.max(1) - 1].iter().cloned());
                at = first.max(1) - 1;
                continue;
            }
            let (sign, text) = line.split_at(1);
            if sign != "+" {
                assert_eq!(old[at], text, "the diff is about these lines");
                at += 1;
            }
            if sign != "-" {
                made.push(text.to_owned());
            }
        }
        made.extend(old[at.min(old.len())..].iter().cloned());
        fs::write(&path, made.join("\n") + "\n").expect("the file can be written");
    }
}

#[test]
fn a_patch_changes_the_figures_that_the_document_names_and_no_comment() {
    let folder = Folder::for_documents();
    let profiles = folder.path().join("profiles");
    let run = folder.run(&format!("{YEAR} --profiles profiles --format patch"));
    assert_eq!((run.status, run.stderr.as_str()), (0, ""));
    let document: Value = folder.run(&format!("{YEAR} --profiles profiles --format json")).document();
    let models = document["models"].as_array().unwrap();
    let changed: Vec<&Value> = models.iter().filter(|model| model["shape_index"]["verdict"] == "change").collect();
    assert!(changed.iter().any(|model| model["model"] == "wexmarsh-one"), "{changed:?}");
    let before = fs::read_to_string(profiles.join("helmets/wexmarsh.yaml")).unwrap();
    take_over(&profiles, &run.stdout);
    for model in &changed {
        let (index, sd) = index_of(&profiles, model["model"].as_str().unwrap());
        let now = &model["shape_index"]["now"];
        assert!((index - now["mean"].as_f64().unwrap()).abs() < 0.056, "{index} {now}");
        assert!((sd.unwrap() - now["sd"].as_f64().unwrap().max(0.1)).abs() < 0.056, "{sd:?} {now}");
    }
    let after = fs::read_to_string(profiles.join("helmets/wexmarsh.yaml")).unwrap();
    let comments =
        |text: &str| text.lines().filter_map(|line| line.split_once('#')).map(|c| c.1.to_owned()).collect::<Vec<_>>();
    assert_eq!(comments(&before), comments(&after));
    let checked = folder.run("check profiles");
    assert!(!checked.stdout.contains("error["), "{}", checked.stdout);
}
