//! The schema of a customer file and the program, which gives its words their meaning where options get theirs.

use super::profiles::schema;
use crate::support::{Folder, Program};
use lidladder::profile::FileSchema;
use rstest::rstest;
use serde_json::{Value, json};
use std::collections::BTreeMap;

/// The words of a customer file get their meaning where options do, so the program itself is asked.
#[test]
fn the_words_of_a_customer_file_are_those_of_the_options() {
    let folder = Folder::new();
    folder
        .write("anna.yaml", "schema: 1\nmeasured_by: qqq\nmeasured_with: qqq\nshape: qqq\ntypes: [qqq]\nmust: [qqq]\n");
    let run = folder.run("plan --customer anna.yaml");
    let flat = run.stderr.split_whitespace().collect::<Vec<_>>().join(" ");
    let mut known = BTreeMap::new();
    for problem in flat.split("error[unknown-word]: ").skip(1) {
        let (_, rest) = problem.split_once("is no word for ").expect("what it is about");
        let (_, words) = problem.split_once("known here: ").expect("the words");
        let word = |text: &str| text.split(' ').next().unwrap_or_default().to_owned();
        known.insert(word(rest), words.split(", ").map(word).collect::<Vec<_>>());
    }
    let schema = schema(FileSchema::Customer);
    let words = |place: &str| {
        let words = schema.pointer(place).and_then(Value::as_array).expect("the words");
        words.iter().map(|word| word.as_str().expect("a word").to_owned()).collect::<Vec<_>>()
    };
    let in_schema = BTreeMap::from([
        ("measured-by".to_owned(), words("/properties/measured_by/enum")),
        ("measured-with".to_owned(), words("/properties/measured_with/enum")),
        ("shape".to_owned(), words("/properties/shape/enum")),
        ("type".to_owned(), words("/properties/types/items/enum")),
        ("must".to_owned(), words("/properties/must/items/enum")),
    ]);
    assert_eq!(known, in_schema);
}

/// What the schema of a customer file refuses, the program does, too; its examples of measures are read.
#[rstest]
#[case("circumference", "measure-number")]
#[case("length", "measure-number")]
#[case("breadth", "measure-number")]
#[case("face_width", "measure-number")]
#[case("price_limit", "not-a-number")]
#[case("mass_limit", "not-a-number")]
#[case("population", "unknown-population")]
fn texts_of_a_customer_file_say_something(#[case] key: &str, #[case] code: &str) {
    let schema = schema(FileSchema::Customer);
    let run = |value: &Value| {
        let folder = Folder::new();
        folder.write("anna.yaml", json!({"schema": 1, "types": ["off-road"], key: value}).to_string());
        let arguments = ["plan", "--steps", "1", "--must", "nothing", "--customer", "anna.yaml"];
        Program::new().arguments(arguments).inside(folder.path()).run().stderr
    };
    // `--must nothing` is refused after everything was looked at: no plan is made.
    let codes = |text: &str| text.matches("error[").count();
    assert!(run(&json!("")).contains(&format!("error[{code}]")), "{key}");
    for example in schema["properties"][key]["examples"].as_array().into_iter().flatten() {
        let told = run(example);
        assert!(told.contains("error[unknown-word]") && codes(&told) == 1, "{key}: {example}: {told}");
    }
}
