//! What was learned, as a page.

use super::YEAR;
use crate::markup::{is_sound, named, parsed, rows, says_as_much, words};
use crate::support::{Folder, root};
use rstest::rstest;
use std::fs;

#[rstest]
#[case(YEAR, 0)]
#[case("learn docs/examples/journal.jsonl --kept-apart latest", 0)]
#[case("learn docs/examples/doubtful.jsonl", 1)]
fn a_page_says_as_much_as_the_text_and_as_the_document(#[case] line: &str, #[case] status: i32) {
    let folder = Folder::for_documents();
    let run = folder.run(&format!("{line} --format html"));
    assert_eq!((run.status, run.stderr.as_str()), (status, ""));
    is_sound(&run.stdout);
    says_as_much(&run.stdout, &folder.run(line).stdout);
    let page = parsed(&run.stdout);
    let document = folder.run(&format!("{line} --format json")).document();
    let warnings = document["warnings"].as_array().expect("a list");
    assert_eq!(named(&page, "b").filter(|mark| words(*mark) == "Look here:").count(), warnings.len());
    let models = document["models"].as_array().expect("a list").iter();
    let tried: Vec<_> = models.filter(|model| model["tries"].as_u64() > Some(0)).collect();
    let shells = tried.iter().flat_map(|model| model["shells"].as_array().expect("a list"));
    let shells = shells.filter(|shell| shell["tries"].as_u64() > Some(0)).count();
    let shown = rows(&page, "helmets");
    assert_eq!(shown.len(), tried.len() + shells);
    for (row, model) in shown.iter().zip(tried) {
        assert_eq!(row[1].replace(',', ""), model["tries"].to_string());
        let now = model["shape_index"]["now"]["mean"].as_f64().expect("a number");
        assert!(row[2].contains(&format!("→ {now:.1}±")), "{row:?}: {now}");
    }
}

#[test]
fn a_file_that_is_called_like_markup_is_text() {
    let folder = Folder::new();
    let text = fs::read_to_string(root().join("docs/examples/journal.jsonl")).expect("the journal is there");
    folder.write("<b>&'.jsonl", format!("{text}no record\n"));
    let run = folder.run("learn <b>&'.jsonl --format html");
    assert_eq!(run.status, 1, "{}", run.stderr);
    is_sound(&run.stdout);
    assert!(run.stdout.contains("&lt;b&gt;&amp;&#39;.jsonl: 1 line is no record"));
}
