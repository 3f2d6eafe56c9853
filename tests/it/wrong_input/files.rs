//! Mistakes in files: the shop's profiles and a customer's notes.

use super::{is_refused, is_told};
use crate::support::{Folder, Run};
use rstest::rstest;
use std::fs;

const MUD: &str = "helmets/dunvarrick.yaml";

/// A plan from the folder's `profiles`.
fn run(folder: &Folder) -> Run {
    folder.run("plan --type off-road --profiles profiles")
}

/// The words after the arrow of a drawing: `file:line:column`.
fn place(file: &str, (line, column): (usize, usize)) -> String {
    format!("--> {file}:{line}:{column}")
}

#[test]
fn a_folder_that_is_not_there_is_one_mistake() {
    let folder = Folder::new();
    let run = folder.run("plan --profiles nowhere");
    is_told(&run, "profile-unreadable", &["can't read nowhere", "shop.yaml", "helmets"]);
    assert!(run.stderr.ends_with("\n1 error\n"), "{}", run.stderr);
    folder.write("file", "x");
    let run = folder.run("plan --profiles file");
    is_told(&run, "profile-unreadable", &["can't read file"]);
    assert!(run.stderr.ends_with("\n1 error\n"), "{}", run.stderr);
}

#[test]
fn an_empty_folder_lacks_everything() {
    let folder = Folder::new();
    let run = folder.run("plan --profiles .");
    is_told(&run, "profile-unreadable", &["shop.yaml", "fallbacks.yaml", "helmets", "populations"]);
    assert!(run.stderr.ends_with("\n4 errors\n"), "{}", run.stderr);
}

#[rstest]
#[case("shop.yaml")]
#[case("fallbacks.yaml")]
fn a_missing_file_is_named(#[case] file: &str) {
    let folder = Folder::with_profiles();
    fs::remove_file(folder.path().join("profiles").join(file)).expect("it was copied");
    let run = run(&folder);
    is_told(&run, "profile-unreadable", &[file]);
    assert!(run.stderr.ends_with("\n1 error\n"), "{}", run.stderr);
}

#[rstest]
// Syntax.
#[case(MUD, "family: Dunvarrick", "family: 'Dunvarrick", 0, "yaml-syntax", &[])]
#[case("shop.yaml", "minutes:\n", "minutes: [\n", 0, "yaml-syntax", &[])]
#[case(MUD, "maker: Orveld", "maker: Orveld\nmaker: Orveld", 14, "yaml-duplicate-key", &["`maker` is given twice"])]
#[case(MUD, "maker: Orveld", "maker: &a Orveld", 7, "yaml-anchor", &[])]
#[case(MUD, "maker: Orveld", "maker: !name Orveld", 7, "yaml-tag", &[])]
// Keys and types.
#[case(MUD, "maker: Orveld", "makr: Orveld", 0, "profile-unknown-key", &["did you mean `maker`?"])]
#[case(MUD, "maker: Orveld", "maker: [Orveld]", 7, "profile-type", &["`maker` needs a text, but has a list"])]
#[case(MUD, "pads_trade: sale", "pads_trade: sell", 12, "profile-unknown-word", &["the words known here are `exchange`, `sale`"])]
#[case("shop.yaml", "misreport: 0.08 ", "misreport: often", 11, "profile-type", &["`misreport` needs a number"])]
#[case("shop.yaml", "misreport: 0.08 ", "misreport: .nan ", 11, "profile-type", &["a finite number"])]
#[case("shop.yaml", "misreport: 0.08 ", "misreport: -.inf ", 11, "profile-type", &["a finite number"])]
#[case("shop.yaml", "misreport: 0.08 ", "misreport: 0,08 ", 11, "profile-type", &["0.08"])]
#[case("shop.yaml", "misreport: 0.08 ", "misreport: 8 ", 11, "profile-bounds", &["between 0 and 0.5"])]
#[case("shop.yaml", "tries: 4 ", "tries: 40 ", 7, "profile-bounds", &["between 1 and 8"])]
#[case("shop.yaml", "currency: EUR", "currency: euro", 10, "profile-currency", &["write for example EUR"])]
#[case("shop.yaml", "long_below: 76", "long_below: 86", -14, "profile-order", &["long ovals must end before"])]
#[case("shop.yaml", "population: adults", "population: adult", 12, "unknown-population", &["did you mean `adults`?"])]
#[case("shop.yaml", "schema: 1", "schema: 2", 8, "profile-schema", &["this program reads schema 1"])]
// The shop's rules.
#[case("fallbacks.yaml", "to: lantreth-longways, size: same,\n     note: \"if the", "to: lantreth-longway, size: same,\n     note: \"if the", 4,
    "unknown-model", &["`lantreth-longway`", "did you mean `lantreth-longways`?"])]
#[case("fallbacks.yaml", "from: wexmarsh-one, reason: too-noisy", "from: wexmarsh-two, reason: too-noisy", 6,
    "unknown-model", &["`wexmarsh-two`"])]
#[case("fallbacks.yaml", "from: wexmarsh-one, reason: too-noisy", "from: wexmarsh-one, reason: too-nosy", 28,
    "unknown-reason", &["`too-nosy`", "did you mean `too-noisy`?"])]
#[case("fallbacks.yaml", "to: quorrie-plain, size: L,", "to: quorrie-plain, size: XXXL,", 25, "unknown-size", &["`XXXL`"])]
#[case("fallbacks.yaml", "\"the quietest we have\"", "\"\\e[31mred\"", 0, "profile-text", &["printable characters"])]
// More pads than are looked at.
#[case(MUD, "- {zone: sides, thickness_mm: 9, price: 16.00}\n          - {zone: sides, thickness_mm: 11, price: 16.00}\n          - {zone: sides, thickness_mm: 13, price: 16.00}\n          - {zone: sides, thickness_mm: 15, price: 16.00}\n          - {zone: sides, thickness_mm: 17, price: 16.00}\n      - id: l-xl", "- {zone: sides, thickness_mm: 8, price: 16.00}\n          - {zone: sides, thickness_mm: 9, price: 16.00}\n          - {zone: sides, thickness_mm: 10, price: 16.00}\n          - {zone: sides, thickness_mm: 11, price: 16.00}\n          - {zone: sides, thickness_mm: 12, price: 16.00}\n          - {zone: sides, thickness_mm: 13, price: 16.00}\n          - {zone: sides, thickness_mm: 15, price: 16.00}\n          - {zone: sides, thickness_mm: 17, price: 16.00}\n      - id: l-xl", 0,
    "profile-pads", &["offers 8 pads for the sides"])]
// Control characters in names.
#[case(MUD, "name: Dunvarrick Mud", "name: \"Mud\\e[31m\"", 6, "profile-text", &["printable characters"])]
#[case(MUD, "name: Dunvarrick Mud", "name: \"Mud\\u202e\"", 6, "profile-text", &["printable characters"])]
#[case(MUD, "name: Dunvarrick Mud", "name: \"two\\nlines\"", 6, "profile-text", &["printable characters"])]
#[case(MUD, "maker: Orveld", "maker: \"\\a\"", 7, "profile-text", &["printable characters"])]
#[case(MUD, "id: dunvarrick-mud", "id: \"dunvarrick\\e[2J\"", 4, "profile-name", &["letters, digits"])]
fn a_mistake_in_a_profile_is_told_at_its_place(
    #[case] file: &str,
    #[case] old: &str,
    #[case] new: &str,
    #[case] offset: isize,
    #[case] code: &str,
    #[case] words: &[&str],
) {
    let folder = Folder::with_profiles();
    let (line, column) = folder.edit(&format!("profiles/{file}"), old, new);
    let run = run(&folder);
    is_told(&run, code, words);
    let file = format!("profiles/{file}");
    match (code, offset) {
        // The parser says where it gave up; the line is the reader's matter below.
        ("yaml-syntax", _) => assert!(run.stderr.contains(&format!("--> {file}:")), "{}", run.stderr),
        ("yaml-duplicate-key", _) => is_at(&run, &place(&file, (line + 1, 1))),
        // Something about a whole group points at its first key.
        (_, offset) if offset < 0 => is_at(&run, &format!("--> {file}:{line}:")),
        (_, offset) => is_at(&run, &place(&file, (line, column + offset.unsigned_abs()))),
    }
}

#[track_caller]
fn is_at(run: &Run, place: &str) {
    assert!(run.stderr.contains(place), "{place} is missing from {}", run.stderr);
}

#[rstest]
#[case("a: b\n\tc: d\n", "2:1")]
#[case("schema: 1\nedges: [\n", "2:9")]
#[case("schema: 1\nedges:\n  - {from: a\n", "3:13")]
#[case("schema: 1\n  edges: []\n", "2:8")]
fn broken_yaml_is_told_where_it_breaks(#[case] text: &str, #[case] line_column: &str) {
    let folder = Folder::with_profiles();
    folder.write("profiles/fallbacks.yaml", text);
    let run = run(&folder);
    is_told(&run, "yaml-syntax", &[]);
    is_at(&run, &format!("--> profiles/fallbacks.yaml:{line_column}\n"));
}

#[rstest]
#[case(b"".to_vec(), "yaml-empty")]
#[case(b"# nothing\n".to_vec(), "yaml-empty")]
#[case(b"schema: 1\nedges: [\xff]\n".to_vec(), "yaml-encoding")]
#[case(b"\xff\xfes\0c\0".to_vec(), "yaml-encoding")]
#[case(b"---\nschema: 1\n---\nedges: []\n".to_vec(), "yaml-documents")]
#[case([b"[".repeat(5000), b"]".repeat(5000)].concat(), "yaml-depth")]
#[case(b"#".repeat(5 << 20), "yaml-too-large")]
fn a_text_that_is_no_profile_is_refused(#[case] bytes: Vec<u8>, #[case] code: &str) {
    let folder = Folder::with_profiles();
    folder.write("profiles/fallbacks.yaml", bytes);
    is_told(&run(&folder), code, &["profiles/fallbacks.yaml"]);
}

#[test]
fn a_model_in_two_files_is_shown_in_both() {
    let folder = Folder::with_profiles();
    let second = folder.edit("profiles/helmets/quorrie.yaml", "id: quorrie-plain", "id: dunvarrick-mud");
    let first = folder.edit("profiles/helmets/dunvarrick.yaml", "id: dunvarrick-mud", "id: dunvarrick-mud");
    let run = run(&folder);
    is_told(&run, "profile-duplicate", &["model `dunvarrick-mud` is defined twice", "the first one", "the second one"]);
    is_at(&run, &place("profiles/helmets/quorrie.yaml", (second.0, second.1 + 4)));
    is_at(&run, &format!("::: profiles/helmets/dunvarrick.yaml:{}:{}\n", first.0, first.1 + 4));
}

#[test]
fn the_mistakes_of_all_files_are_told_in_one_run() {
    let folder = Folder::with_profiles();
    folder.edit("profiles/shop.yaml", "currency: EUR", "currency: euro");
    folder.edit("profiles/shop.yaml", "misreport: 0.08 ", "misreport: 8 ");
    folder.edit(&format!("profiles/{MUD}"), "maker: Orveld", "makr: Orveld");
    folder.edit("profiles/fallbacks.yaml", "from: wexmarsh-one, reason: too-noisy", "from: wexmarsh-one, reason: loud");
    folder.edit("profiles/populations/men.yaml", "share: 1", "share: 2");
    let run = run(&folder);
    let told = is_refused(&run);
    for code in ["profile-currency", "profile-bounds", "profile-unknown-key", "profile-population", "unknown-reason"] {
        assert!(told.contains(&format!("error[{code}]: ")), "{code} is missing from {told}");
    }
    for file in ["shop.yaml", "helmets/dunvarrick.yaml", "fallbacks.yaml", "populations/men.yaml"] {
        assert!(told.contains(&format!("--> profiles/{file}:")), "{file} is missing from {told}");
    }
}

#[test]
fn files_that_are_no_profiles_are_left_alone() {
    let folder = Folder::with_profiles();
    folder.write("profiles/helmets/notes.txt", "not YAML: [");
    folder.write("profiles/README.md", "not YAML: [");
    assert_eq!(run(&folder).status, 0);
}

#[rstest]
#[case("schema: 1\ncircumference: 57.5\n", "measure-human", "2:16", &["did you mean 57.5cm?"])]
#[case("schema: 1\ncircumference: '57.5'\n", "measure-human", "2:16", &["did you mean 57.5cm?"])]
#[case("schema: 1\ncircumference: 57,5cm\n", "measure-comma", "2:18", &["57.5cm instead of 57,5cm"])]
#[case("schema: 1\ncircumfrence: 57.5cm\n", "profile-unknown-key", "2:1", &["did you mean `circumference`?"])]
#[case("schema: 1\nshape: rund\n", "unknown-word", "2:8", &["did you mean `round`?"])]
#[case("schema: 1\nwears:\n  - wexmarsh-one/L\n  - wexmarsh-won/M\n", "unknown-model", "4:5", &["`wexmarsh-won`"])]
#[case("schema: 1\nout_of_stock: [dunvarrick-mud/7]\n", "unknown-size", "2:16", &["`7`"])]
#[case("schema: 2\n", "profile-schema", "1:9", &["this program reads schema 1"])]
#[case("circumference: 57.5cm\n", "profile-missing-key", "1:1", &["`schema`"])]
#[case("schema: 1\nshape: \"\\e[31mlong\"\n", "unknown-word", "2:8", &[])]
fn a_mistake_in_a_customer_file_is_told_at_its_place(
    #[case] text: &str,
    #[case] code: &str,
    #[case] line_column: &str,
    #[case] words: &[&str],
) {
    let folder = Folder::new();
    folder.write("anna.yaml", text);
    let run = folder.run("plan --type off-road --customer anna.yaml");
    is_told(&run, code, words);
    is_at(&run, &format!("--> anna.yaml:{line_column}\n"));
}

#[test]
fn a_customer_file_that_is_not_there_is_named() {
    let folder = Folder::new();
    is_told(&folder.run("plan --customer ben.yaml"), "customer-unreadable", &["ben.yaml", "head options as keys"]);
    is_told(&folder.run("plan --customer ."), "customer-unreadable", &["customer file ."]);
}

#[rstest]
#[case("schema: 1\ntries: [M/575/fit]\n", "unknown-reason", &["--> tries.yaml:2:15", "did you mean `fits`?"])]
#[case("schema: 1\ntries:\n  - \"M/575/fit\"\n", "unknown-reason", &["--> tries.yaml:3:5"])]
#[case("schema: 1\ntries:\n  - M/c=57,8cm/fits\n", "try-form", &["--> tries.yaml:3:12"])]
#[case("schema: 1\ntries:\n  - 575\n", "try-form", &["--> tries.yaml:3:5", "SIZE/HEAD/OUTCOME"])]
#[case("schema: 1\ntries:\n  - [M, 575, fits]\n", "profile-type", &["needs a text"])]
#[case("schema: 1\ntries: M/575/fits\n", "profile-type", &["needs a list"])]
#[case("schema: 1\ntried: []\n", "profile-unknown-key", &["did you mean `tries`?"])]
#[case("schema: 1\n", "profile-missing-key", &["tries"])]
#[case("schema: 2\ntries: []\n", "profile-schema", &["this program reads schema 1"])]
#[case("", "", &[])]
fn a_mistake_in_a_list_of_tries_is_told(#[case] text: &str, #[case] code: &str, #[case] words: &[&str]) {
    let folder = Folder::new();
    folder.write("tries.yaml", text);
    let run = folder.run("sketch --size M=57-58 --tries tries.yaml");
    if code.is_empty() {
        is_refused(&run);
    } else {
        is_told(&run, code, words);
    }
}
