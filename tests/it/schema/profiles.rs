//! The schemas of the files that a shop writes: committed, printed, and true of every file that comes with the program.

use crate::support::{lidladder, once, root};
use jsonschema::Validator;
use lidladder::catalogue::{BUILT_IN, Beginning, beginning};
use lidladder::profile::FileSchema;
use rstest::rstest;
use serde_json::{Value, json};
use std::fs;

pub(super) fn schema(kind: FileSchema) -> Value {
    serde_json::from_str(&kind.text()).expect("a schema is JSON")
}

pub(super) fn validator(kind: FileSchema) -> Validator {
    jsonschema::draft202012::new(&schema(kind)).expect("the schema is a valid one")
}

pub(super) fn document(yaml: &str) -> Value {
    serde_yaml::from_str(yaml).expect("the file is YAML")
}

fn faults(kind: FileSchema, document: &Value) -> Vec<String> {
    validator(kind).iter_errors(document).map(|fault| format!("{}: {fault}", fault.instance_path())).collect()
}

fn kind_of(path: &str) -> FileSchema {
    match path.split_once('/') {
        Some(("helmets", _)) => FileSchema::Helmets,
        Some(("populations", _)) => FileSchema::Population,
        _ if path == "shop.yaml" => FileSchema::Shop,
        _ if path == "fallbacks.yaml" => FileSchema::Fallbacks,
        _ => panic!("no kind of file is {path}"),
    }
}

#[rstest]
fn the_committed_schema_is_the_one_that_the_command_prints(
    #[values("shop", "helmets", "fallbacks", "population", "customer")] name: &str,
) {
    let kind = FileSchema::ALL.into_iter().find(|kind| kind.name() == name).expect("a kind of this name");
    let file = format!("docs/schema/{name}.schema.json");
    assert_eq!(file, format!("docs/schema/{}", kind.file_name()));
    let path = root().join(&file);
    if std::env::var_os("LIDLADDER_UPDATE").is_some() {
        fs::write(&path, kind.text()).expect("the schema can be written");
    }
    let committed = fs::read_to_string(&path).unwrap_or_default();
    assert!(committed == kind.text(), "{file} is out of date: run this test with LIDLADDER_UPDATE=1");
    assert!(lidladder(&format!("schema {name}")).good() == committed, "`schema {name}` prints something else");
}

#[test]
fn every_file_that_comes_with_the_program_is_valid() {
    let starter = beginning(Beginning::Starter);
    let written = starter.iter().map(|file| (file.path.as_str(), file.text.as_str()));
    let mut seen = 0;
    for (path, text) in BUILT_IN.iter().copied().chain(written.filter(|(path, _)| path.ends_with(".yaml"))) {
        assert_eq!(faults(kind_of(path), &document(text)), Vec::<String>::new(), "{path}");
        seen += 1;
    }
    assert_eq!(seen, BUILT_IN.len() + 6, "the starter has six files");
    let customer = fs::read_to_string(root().join("docs/examples/customer.yaml")).expect("the example is there");
    assert_eq!(faults(FileSchema::Customer, &document(&customer)), Vec::<String>::new());
}

fn built_in(path: &str) -> Value {
    let (_, text) = BUILT_IN.iter().find(|(built_in, _)| *built_in == path).expect("part of the demo range");
    document(text)
}

#[rstest]
#[case::another_version("shop.yaml", "/schema", Some(json!(2)))]
#[case::no_currency("shop.yaml", "/currency", Some(json!("Euro")))]
#[case::a_text_for_a_number("shop.yaml", "/minutes/fetch", Some(json!("3 minutes")))]
#[case::half_a_try("shop.yaml", "/session/tries", Some(json!(2.5)))]
#[case::an_unknown_tool("shop.yaml", "/measuring/0/with", Some(json!("thumb")))]
#[case::a_missing_group("shop.yaml", "/fit/cheek_bands", None)]
#[case::a_key_of_nobody("fallbacks.yaml", "/edges/0/because", Some(json!("so")))]
#[case::a_reason_of_nobody("fallbacks.yaml", "/edges/0/reason", Some(json!("too-loud")))]
#[case::a_name_with_a_space("fallbacks.yaml", "/edges/0/to", Some(json!("wexmarsh one")))]
#[case::no_note("fallbacks.yaml", "/edges/0/note", None)]
#[case::a_type_of_nobody("helmets/quorrie.yaml", "/models/0/type", Some(json!("half-shell")))]
#[case::cm_for_mm("helmets/quorrie.yaml", "/models/0/shells/0/sizes/0/circumference_cm/0", Some(json!(550)))]
#[case::an_open_range("helmets/quorrie.yaml", "/models/0/shells/0/sizes/0/circumference_cm", Some(json!([55])))]
#[case::no_side_pads("helmets/quorrie.yaml", "/models/0/shells/0/sizes/0/standard_pads_mm/sides", None)]
#[case::no_size("helmets/quorrie.yaml", "/models/0/shells/0/sizes", Some(json!([])))]
#[case::a_pad_for_nothing("helmets/quorrie.yaml", "/models/1/shells/0/pads/0/price", None)]
#[case::a_pad_sold_twice("helmets/quorrie.yaml", "/models/1/shells/0/pads/0/pack", Some(json!("thin")))]
#[case::nothing_behind_a_key("helmets/quorrie.yaml", "/models/0/attributes/noise_db", Some(json!(null)))]
#[case::no_source("populations/men.yaml", "/source", None)]
#[case::no_components("populations/men.yaml", "/components", Some(json!([])))]
#[case::three_of_four("populations/men.yaml", "/components/0/covariance_mm2/length", Some(json!([1, 2, 3])))]
fn a_spoilt_file_is_not_valid(#[case] file: &str, #[case] place: &str, #[case] value: Option<Value>) {
    let mut document = built_in(file);
    assert_eq!(faults(kind_of(file), &document), Vec::<String>::new());
    let (parent, key) = place.rsplit_once('/').expect("a place has a slash");
    match (document.pointer_mut(parent).expect("the place is there"), value) {
        (Value::Array(list), Some(value)) => list[key.parse::<usize>().expect("a number")] = value,
        (Value::Object(group), Some(value)) => _ = group.insert(key.to_owned(), value),
        (Value::Object(group), None) => _ = group.remove(key).expect("the key is there"),
        (other, _) => panic!("{place} lies in {other}"),
    }
    assert_ne!(faults(kind_of(file), &document), Vec::<String>::new());
}

/// What a fitter sees who points at a key: one sentence, and which file it is about.
#[test]
fn every_key_says_what_it_means() {
    fn look(schema: &Value, path: &str, keys: &mut usize) {
        for (key, below) in schema["properties"].as_object().into_iter().flatten() {
            let path = format!("{path}/{key}");
            let words = below["description"].as_str().unwrap_or_else(|| panic!("{path} says nothing"));
            assert!(words.ends_with('.') && words.len() < 160 && !words.contains('\n'), "{path}: {words}");
            *keys += 1;
            look(below, &path, keys);
        }
        if let Some(items) = schema.get("items") {
            look(items, &format!("{path}/[]"), keys);
        }
        let is_group = schema["type"] == "object";
        assert!(!is_group || schema["additionalProperties"] == json!(false), "{path} takes any key");
        let words = |key: &str| schema[key].as_array().map_or(0, Vec::len);
        assert_eq!(words("enum"), words("enumDescriptions"), "{path}");
    }
    let mut keys = 0;
    for kind in FileSchema::ALL {
        let schema = schema(kind);
        assert!(schema["title"].is_string() && schema["description"].is_string(), "{}", kind.name());
        look(&schema, kind.name(), &mut keys);
    }
    assert!(keys > 120, "the search found {keys} keys only");
}

/// An editor that knows an older form of schemas understands these words, too.
#[test]
fn a_schema_is_plain() {
    for kind in FileSchema::ALL {
        let text = kind.text();
        for word in ["$ref", "$id", "anyOf", "allOf", "null", "format", "default", "multipleOf"] {
            assert!(!text.contains(&format!("\"{word}\"")), "{} has {word}", kind.name());
        }
        assert!(text.starts_with("{\n  \"$schema\": \"https://json-schema.org/draft/2020-12/schema\",\n"), "{text}");
    }
}

#[test]
fn an_unknown_kind_is_refused_and_the_kinds_are_named() {
    let run = once("schema hats");
    assert_eq!((run.status, run.stdout.as_str()), (2, ""));
    let names = FileSchema::ALL.map(FileSchema::name).join(", ");
    assert!(run.stderr.contains("'hats'") && run.stderr.contains(&names), "{}", run.stderr);
    let near = once("schema helmet");
    assert!(near.status == 2 && near.stderr.contains("'helmets'"), "{}", near.stderr);
    let none = once("schema");
    assert!(none.status == 2 && none.stderr.contains("<KIND>"), "{}", none.stderr);
}
