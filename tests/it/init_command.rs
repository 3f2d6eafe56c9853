//! `init`: a new folder is whole, works at once, and nothing that is there is ever overwritten.

mod starter;

use crate::support::{Folder, Program, Run, files_below, root};
use lidladder::catalogue::{BUILT_IN, Beginning, Origin, beginning, load};
use lidladder::diag::Sources;
use rstest::rstest;
use serde_json::Value;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

/// The files below a folder with their texts, by their path within it.
fn texts(folder: &Path) -> BTreeMap<String, String> {
    let name = |path: &Path| {
        let below = path.strip_prefix(folder).expect("it lies below");
        below.components().map(|part| part.as_os_str().to_string_lossy()).collect::<Vec<_>>().join("/")
    };
    let read = |path: &Path| fs::read_to_string(path).expect("a text");
    files_below(folder).iter().map(|path| (name(path), read(path))).collect()
}

fn promised(kind: Beginning) -> BTreeMap<String, String> {
    beginning(kind).into_iter().map(|file| (file.path, file.text)).collect()
}

#[track_caller]
fn is_refused(run: &Run, code: &str, words: &[&str]) {
    assert_eq!((run.status, run.stdout.as_str()), (2, ""), "{}", run.stderr);
    assert!(
        run.stderr.starts_with(&format!("error[{code}]: ")) && run.stderr.ends_with("\n1 error\n"),
        "{}",
        run.stderr
    );
    let flat = run.stderr.split_whitespace().collect::<Vec<_>>().join(" ");
    for part in words {
        assert!(flat.contains(part), "{part:?} is missing from {}", run.stderr);
    }
}

#[test]
fn a_new_folder_is_whole_and_a_plan_comes_out() {
    let folder = Folder::new();
    let run = folder.run("init deep/down/my-shop");
    let said = run.good().to_owned();
    let written = texts(&folder.path().join("deep/down/my-shop"));
    assert_eq!(written, promised(Beginning::Starter));
    let listed = said.lines().skip(1).take_while(|line| !line.is_empty()).map(str::trim).collect::<Vec<_>>();
    assert_eq!(listed.len(), written.len());
    assert!(listed.iter().all(|path| written.contains_key(*path)), "{said}");
    assert!(
        said.starts_with("WRITTEN into deep/down/my-shop\n") && said.lines().all(|line| line.chars().count() <= 80)
    );
    assert!(said.contains("helmets/example.yaml: it explains every key"), "{said}");
    // The commands that it names are commands.
    for command in
        ["lidladder check deep/down/my-shop", "lidladder plan --profiles deep/down/my-shop --circumference 57.5cm"]
    {
        assert!(said.lines().any(|line| line.trim() == command), "{command} is missing from {said}");
    }
    let plan = folder.run("plan --profiles deep/down/my-shop --circumference 57.5cm");
    assert!(plan.good().contains("Example Middle in M"), "{}", plan.stdout);
    let fit = folder.run("fit example-round --profiles deep/down/my-shop --circumference 57.5cm --format json");
    assert_eq!(fit.document()["model"], "example-round");
}

#[test]
fn the_demo_range_is_written_as_it_stands() {
    let folder = Folder::new();
    let run = folder.run("init . --demo");
    assert!(run.good().contains("lidladder check ."), "{}", run.stdout);
    let mut written = texts(folder.path());
    assert_eq!(written, promised(Beginning::Demo));
    written.retain(|path, _| !path.starts_with("schema/"));
    assert_eq!(written, texts(&root().join("profiles")));
    let loaded = |origin: &Origin| load(origin, &mut Sources::default()).expect("in order");
    assert_eq!(loaded(&Origin::Folder(folder.path().to_owned())), loaded(&Origin::BuiltIn));
}

#[rstest]
#[case::the_first("shop.yaml", "")]
#[case::one_in_a_folder("helmets/example.yaml", "")]
#[case::the_last("schema/customer.schema.json", "")]
#[case::one_of_the_demo("helmets/quorrie.yaml", "--demo")]
fn one_file_in_the_way_and_nothing_is_written(#[case] file: &str, #[case] option: &str) {
    let folder = Folder::new();
    let path = folder.path().join("mine").join(file);
    fs::create_dir_all(path.parent().expect("it lies in a folder")).expect("a folder can be made");
    fs::write(&path, "mine").expect("a file can be written");
    is_refused(
        &folder.run(&format!("init mine {option}")),
        "init-in-the-way",
        &[&format!("mine/{file} is there already")],
    );
    assert_eq!(texts(folder.path()), BTreeMap::from([(format!("mine/{file}"), "mine".to_owned())]));
}

#[test]
fn a_second_time_names_every_file_and_changes_none() {
    let folder = Folder::new();
    folder.run("init mine").good();
    folder.edit("mine/shop.yaml", "shop: Our helmet counter", "shop: Mara");
    let before = texts(folder.path());
    let names = beginning(Beginning::Starter).into_iter().map(|file| format!("mine/{}", file.path)).collect::<Vec<_>>();
    let listed = format!("{} are there already", names.join(", "));
    is_refused(&folder.run("init mine"), "init-in-the-way", &[&listed, "nothing was written", "never overwrites"]);
    // The demo range shares some files with it, and names those.
    is_refused(&folder.run("init mine --demo"), "init-in-the-way", &["mine/shop.yaml", "mine/populations/men.yaml"]);
    assert_eq!(texts(folder.path()), before);
}

#[test]
fn a_file_where_a_folder_would_be_is_in_the_way() {
    let folder = Folder::new();
    folder.write("mine", "x");
    is_refused(&folder.run("init mine"), "init-in-the-way", &["mine is there already"]);
    is_refused(
        &folder.run("init mine/shop"),
        "init-unwritable",
        &["can't write mine/shop/shop.yaml", "no file was written"],
    );
    let other = Folder::new();
    other.write("helmets", "x");
    other.write("schema", "x");
    is_refused(&other.run("init ."), "init-in-the-way", &["./helmets, ./schema are there already"]);
    assert_eq!(texts(other.path()).len(), 2);
}

#[test]
fn a_folder_with_other_things_in_it_is_fine() {
    let folder = Folder::new();
    fs::create_dir_all(folder.path().join("mine/helmets")).expect("a folder can be made");
    folder.write("mine/helmets/other.txt", "mine");
    folder.write("mine/README.md", "mine");
    folder.run("init mine").good();
    let written = texts(&folder.path().join("mine"));
    assert_eq!(written.len(), promised(Beginning::Starter).len() + 2);
    assert_eq!((written["helmets/other.txt"].as_str(), written["README.md"].as_str()), ("mine", "mine"));
}

/// A link to nowhere is no free place: what it leads to could be made through it.
#[cfg(unix)]
#[rstest]
#[case("shop.yaml")]
#[case("helmets")]
fn a_link_that_leads_nowhere_is_in_the_way(#[case] name: &str) {
    let folder = Folder::new();
    std::os::unix::fs::symlink("nowhere", folder.path().join(name)).expect("a link can be made");
    is_refused(&folder.run("init ."), "init-in-the-way", &[&format!("./{name} is there already")]);
    assert_eq!(fs::read_dir(folder.path()).expect("it is there").count(), 1);
}

/// A limit on the size of files stands for a full disk: the first files are small, the schemas are larger.
#[cfg(unix)]
#[test]
fn a_write_that_fails_half_way_says_what_is_there() {
    let folder = Folder::new();
    let program = env!("CARGO_BIN_EXE_lidladder");
    // A shell counts in blocks of 512 or of 1024 bytes. The first file is shorter than 21 of the small ones, and the
    // schema of the shop is longer than 21 of the large ones.
    let line = format!("trap '' XFSZ; ulimit -f 21 && exec '{program}' init mine");
    let output = std::process::Command::new("sh").args(["-c", &line]).current_dir(folder.path()).env_clear().output();
    let output = output.expect("there is a shell");
    let told = String::from_utf8(output.stderr).expect("standard error is UTF-8");
    assert_eq!(output.status.code(), Some(2), "{told}");
    let flat = told.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flat.starts_with("error[init-unwritable]: can't write mine/"), "{told}");
    assert!(flat.contains("it is there, but not whole; written before, into mine: shop.yaml"), "{told}");
    let written = texts(&folder.path().join("mine"));
    let promised = promised(Beginning::Starter);
    assert!(promised["shop.yaml"].len() < 21 * 512 && promised["schema/shop.schema.json"].len() > 21 * 1024);
    let (cut, whole): (Vec<_>, Vec<_>) = written.iter().partition(|(path, text)| promised[*path] != **text);
    assert_eq!(cut.len(), 1, "one file is cut");
    assert!(flat.contains(&format!("can't write mine/{}: ", cut[0].0)), "{told}");
    assert!(whole.iter().all(|(path, _)| flat.contains(path.as_str())), "{told}");
}

#[test]
fn a_folder_of_any_name_is_written_and_shown_harmlessly() {
    let folder = Folder::new();
    let name = "my shop's\u{1b}[31m\u{202e}";
    let run = Program::new().arguments(["init", name]).inside(folder.path()).run();
    let said = run.good();
    assert!(!said.contains(|c: char| (c.is_control() && c != '\n') || c == '\u{202e}'), "{said:?}");
    assert!(said.contains(r"lidladder check 'my shop'\''s"), "{said}");
    assert_eq!(texts(&folder.path().join(name)), promised(Beginning::Starter));
    let again = Program::new().arguments(["init", name]).inside(folder.path()).run();
    assert!(!again.stderr.contains(|c: char| c.is_control() && c != '\n'), "{:?}", again.stderr);
}

#[test]
fn without_a_folder_it_says_what_is_missing() {
    let run = Folder::new().run("init");
    assert!(run.status == 2 && run.stderr.contains("<DIR>"), "{}", run.stderr);
    let run = Program::new().arguments(["init", ""]).run();
    assert!(run.status == 2 && run.stdout.is_empty(), "{}", run.stderr);
}

/// The first line of each file leads to a schema that is there, and that takes the file.
#[test]
fn an_editor_finds_the_schema_of_each_file() {
    let folder = Folder::new();
    folder.run("init mine").good();
    let mine = folder.path().join("mine");
    let told = fs::read_to_string(root().join("docs/profiles.md")).expect("the document is there");
    let mut seen = 0;
    for (path, text) in texts(&mine).into_iter().filter(|(path, _)| path.ends_with(".yaml")) {
        let line = text.lines().next().unwrap_or_default();
        let schema = line.strip_prefix("# yaml-language-server: $schema=").unwrap_or_else(|| panic!("{path}: {line}"));
        assert!(told.contains(&format!("`$schema={schema}`")), "docs/profiles.md doesn't tell {schema}");
        let file = mine.join(&path).parent().expect("it lies in a folder").join(schema);
        let schema: Value = serde_json::from_str(&fs::read_to_string(file).expect("it is there")).expect("JSON");
        let document: Value = serde_yaml::from_str(&text).expect("YAML");
        assert!(jsonschema::draft202012::is_valid(&schema, &document), "{path}");
        seen += 1;
    }
    assert_eq!(seen, promised(Beginning::Starter).keys().filter(|path| path.ends_with(".yaml")).count());
    assert!(BUILT_IN.iter().all(|(_, text)| !text.contains("$schema")), "the demo range stands as it is");
}
