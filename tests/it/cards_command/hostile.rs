//! Names that try to be something else stay names on every kind of page.

use crate::support::{Folder, eighty_plain_columns};
use roxmltree::Document;

const NAME: &str = "<b>|`x`|*y*_[z](http://a.example)<script>&\"'";

fn spoilt() -> Folder {
    let folder = Folder::with_profiles();
    folder.edit(
        "profiles/helmets/quorrie.yaml",
        "maker: Tollern",
        &format!("maker: \"{}\"", NAME.replace('"', "\\\"")),
    );
    folder.edit(
        "profiles/helmets/quorrie.yaml",
        "name: Quorrie Plain",
        &format!("name: \"{}\"", NAME.replace('"', "\\\"")),
    );
    folder.edit(
        "profiles/fallbacks.yaml",
        "rounder, and the side pads can be changed in M and L",
        "www.a.example | <i>",
    );
    folder
}

fn card(format: &str) -> String {
    let run = spoilt().run(&format!("cards quorrie-plain --heads 1000 --profiles profiles --format {format}"));
    run.good().to_owned()
}

#[test]
fn a_name_is_a_name_in_a_terminal() {
    let page = card("text");
    eighty_plain_columns(&page);
    assert!(page.contains(NAME), "{page}");
}

#[test]
fn a_name_is_no_element() {
    let page = card("html");
    let (_, body) = page.split_once('\n').expect("the kind of document");
    let tree = Document::parse(body).expect("every element is closed");
    let heading = tree.descendants().find(|node| node.has_tag_name("h2")).and_then(|node| node.text());
    assert_eq!(heading.map(str::trim), Some(NAME));
    assert!(["b", "i", "script", "a"].iter().all(|name| !tree.descendants().any(|node| node.has_tag_name(*name))));
}

#[test]
fn a_name_is_no_markup_and_ends_no_cell() {
    let page = card("markdown");
    let name = "&lt;b&gt;\\|\\`x\\`\\|\\*y\\*\\_\\[z\\](http\\://a.example)&lt;script&gt;&amp;\"'";
    assert!(page.contains(&format!("## {name} (quorrie-plain)\n")), "{page}");
    assert!(page.contains("www\\.a.example \\| &lt;i&gt;"), "{page}");
}

#[test]
fn a_name_stays_itself_in_a_document() {
    let document: serde_json::Value = serde_json::from_str(&card("json")).expect("the output is JSON");
    assert_eq!(document["cards"][0]["name"], NAME);
    assert_eq!(document["cards"][0]["helmet"]["maker"], NAME);
}

/// Labels as long as profiles allow make a table of three pages' width: each row is told by itself instead.
#[test]
fn long_labels_stay_in_eighty_columns() {
    let folder = Folder::with_profiles();
    let label = "L".repeat(48);
    let path = folder.path().join("profiles/helmets/quorrie.yaml");
    let text = std::fs::read_to_string(&path).expect("the demo range");
    folder.write("profiles/helmets/quorrie.yaml", text.replace("label: M\n", &format!("label: {label}\n")));
    let run = folder.run("cards quorrie-plain --heads 1000 --profiles profiles");
    eighty_plain_columns(run.good());
    assert!(run.stdout.contains(&format!("{label}: cm ")), "{}", run.stdout);
}
