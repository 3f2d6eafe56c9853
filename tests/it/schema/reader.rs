//! Schema and reader agree: whatever a schema says of a key, a file that keeps to it is read, and one that doesn't is
//! refused. Every key of every schema is taken in turn, in a file that has them all.

use super::profiles::{document, schema, validator};
use crate::support::root;
use jsonschema::Validator;
use lidladder::catalogue::{BUILT_IN, Beginning, beginning};
use lidladder::diag::Sources;
use lidladder::profile::{self, FileSchema};
use rstest::rstest;
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;

/// What the reader says beyond any schema: names that nothing defines, orders, sums.
const BEYOND_SCHEMAS: [&str; 7] = [
    "credit-without-exchange",
    "pack-of-another-shell",
    "pad-of-another-shell",
    "profile-unknown-pack",
    "profile-unknown-size",
    "profile-order",
    "profile-duplicate",
];

/// The codes of what is wrong with a text.
fn told(kind: FileSchema, text: &str) -> Vec<&'static str> {
    let source = Sources::default().add("file.yaml", text);
    let problems = match kind {
        FileSchema::Shop => profile::shop(source, text).problems,
        FileSchema::Helmets => profile::helmets(source, text).problems,
        FileSchema::Fallbacks => profile::fallbacks(source, text).problems,
        FileSchema::Population => profile::population(source, text).problems,
        FileSchema::Customer => profile::customer(source, text).err().unwrap_or_default(),
    };
    problems.into_iter().map(|problem| problem.code.0).collect()
}

/// A file that has every key.
fn whole(kind: FileSchema) -> Value {
    let starter = beginning(Beginning::Starter).into_iter().map(|file| (file.path, file.text));
    let built_in = BUILT_IN.iter().map(|(path, text)| ((*path).to_owned(), (*text).to_owned()));
    let mut files: BTreeMap<String, String> = built_in.chain(starter).collect();
    let customer = fs::read_to_string(root().join("docs/examples/customer.yaml")).expect("the example is there");
    let more = "breadth: 152mm\nface_width: 14cm\npopulation: men\nmass_limit: \"1700\"\n";
    files.insert("customer.yaml".to_owned(), customer + more);
    let path = match kind {
        FileSchema::Shop => "shop.yaml",
        FileSchema::Helmets => "helmets/example.yaml",
        FileSchema::Fallbacks => "fallbacks.yaml",
        FileSchema::Population => "populations/men.yaml",
        FileSchema::Customer => "customer.yaml",
    };
    let mut document = document(&files[path]);
    if kind == FileSchema::Helmets {
        // Not in the starter, because a shop that changes its own would meet a mismatch there.
        document["currency"] = json!("EUR");
    }
    if kind == FileSchema::Shop {
        // Only shops that know what they earn have it.
        document["stocking"]["margin"] = json!(0.35);
    }
    document
}

/// A place of a schema, and where the file has it first.
struct Spot {
    pointer: String,
    schema: Value,
}

/// Every place of a schema, by the path to it.
fn spots(kind: FileSchema) -> BTreeMap<String, Spot> {
    let (schema, document) = (schema(kind), whole(kind));
    let mut found = BTreeMap::new();
    walk(&schema, Some(&document), "", "", &mut found);
    let mut all = BTreeMap::new();
    walk(&schema, None, "", "", &mut all);
    let names = |spots: &BTreeMap<String, Spot>| spots.keys().cloned().collect::<BTreeSet<_>>();
    assert_eq!(names(&found), names(&all), "the file has every key of the schema");
    found
}

/// Without a document, the places that a schema has; with one, those that the document has, too.
fn walk(schema: &Value, document: Option<&Value>, path: &str, pointer: &str, found: &mut BTreeMap<String, Spot>) {
    found.entry(path.to_owned()).or_insert_with(|| Spot { pointer: pointer.to_owned(), schema: schema.clone() });
    for (key, below) in schema["properties"].as_object().into_iter().flatten() {
        let (path, pointer) = (format!("{path}/{key}"), format!("{pointer}/{key}"));
        match document {
            None => walk(below, None, &path, &pointer, found),
            Some(document) => {
                let value = document.get(key);
                value.into_iter().for_each(|value| walk(below, Some(value), &path, &pointer, found));
            }
        }
    }
    if let Some(items) = schema.get("items") {
        let path = format!("{path}/[]");
        match document {
            None => walk(items, None, &path, "", found),
            Some(list) => {
                for (at, value) in list.as_array().into_iter().flatten().enumerate() {
                    walk(items, Some(value), &path, &format!("{pointer}/{at}"), found);
                }
            }
        }
    }
}

/// Holds schema and reader to one verdict on a file.
struct Judge {
    kind: FileSchema,
    validator: Validator,
    whole: Value,
    asked: usize,
}

impl Judge {
    fn new(kind: FileSchema) -> Self {
        Self { kind, validator: validator(kind), whole: whole(kind), asked: 0 }
    }

    /// A whole file with another value at one place.
    #[track_caller]
    fn ask(&mut self, pointer: &str, value: Value, is_good: bool) {
        let shown = value.to_string();
        let mut document = self.whole.clone();
        *document.pointer_mut(pointer).expect("the place is there") = value;
        self.judge(&document, is_good, &format!("{shown} at {pointer}"));
    }

    #[track_caller]
    fn judge(&mut self, document: &Value, is_good: bool, what: &str) {
        let codes = told(self.kind, &document.to_string());
        let kind = self.kind.name();
        assert_eq!(self.validator.is_valid(document), is_good, "the schema of {kind} on {what}");
        if is_good {
            assert!(
                codes.iter().all(|code| BEYOND_SCHEMAS.contains(code)),
                "the reader of {kind} on {what}: {codes:?}"
            );
        } else {
            assert_ne!(codes, Vec::<&str>::new(), "the reader of {kind} on {what}");
        }
        self.asked += 1;
    }
}

#[rstest]
fn a_whole_file_is_good(
    #[values(
        FileSchema::Shop,
        FileSchema::Helmets,
        FileSchema::Fallbacks,
        FileSchema::Population,
        FileSchema::Customer
    )]
    kind: FileSchema,
) {
    Judge::new(kind).judge(&whole(kind), true, "a whole file");
    assert_eq!(told(kind, &whole(kind).to_string()), Vec::<&str>::new());
    assert!(spots(kind).len() > 5);
}

#[rstest]
#[case(FileSchema::Shop, 35)]
#[case(FileSchema::Helmets, 23)]
#[case(FileSchema::Population, 5)]
fn numbers_are_read_up_to_their_bounds_and_not_beyond(#[case] kind: FileSchema, #[case] least: usize) {
    let mut judge = Judge::new(kind);
    let mut bounded = 0;
    for Spot { pointer, schema } in spots(kind).into_values() {
        let bound = |key: &str| schema.get(key).map(|value| value.as_f64().expect("a bound is a number"));
        let is_whole = schema["type"] == "integer";
        let number = |value: f64| if is_whole { json!(value as i64) } else { json!(value) };
        if let Some(most) = bound("maximum") {
            judge.ask(&pointer, number(most), true);
            judge.ask(&pointer, number(if is_whole { most + 1.0 } else { most.next_up() }), false);
            bounded += 1;
        }
        if let Some(least) = bound("minimum") {
            judge.ask(&pointer, number(least), true);
            judge.ask(&pointer, number(if is_whole { least - 1.0 } else { least.next_down() }), false);
        }
        if let Some(least) = bound("exclusiveMinimum") {
            judge.ask(&pointer, number(least), false);
        }
        // Every number of a profile has bounds, but for covariances.
        let is_number = matches!(schema["type"].as_str(), Some("number" | "integer")) && schema.get("const").is_none();
        assert_eq!(is_number && !pointer.contains("covariance"), bound("maximum").is_some(), "{pointer}");
    }
    assert!(bounded >= least, "{bounded} numbers with bounds");
}

#[rstest]
#[case(FileSchema::Shop)]
#[case(FileSchema::Helmets)]
#[case(FileSchema::Fallbacks)]
#[case(FileSchema::Population)]
fn texts_and_names_are_read_in_their_form_only(#[case] kind: FileSchema) {
    let mut judge = Judge::new(kind);
    for Spot { pointer, schema } in spots(kind).into_values() {
        let letters = |count: u64| json!("a".repeat(usize::try_from(count).expect("a short text")));
        if let Some(most) = schema["maxLength"].as_u64() {
            judge.ask(&pointer, letters(most), true);
            judge.ask(&pointer, letters(most + 1), false);
        }
        if let Some(least) = schema["minLength"].as_u64() {
            judge.ask(&pointer, letters(least), true);
            judge.ask(&pointer, letters(least - 1), false);
        }
        if schema.get("pattern").is_some() {
            // What comes next to a name, or to a currency.
            for bad in ["", "a b", "a--b", "-a", "a-", "a_b", "ä", "a\n", "a/b", "EURO", "eur", "E1R"] {
                let is_name = schema["maxLength"].is_u64() && ["EURO", "eur", "E1R"].contains(&bad);
                judge.ask(&pointer, json!(bad), is_name);
            }
        }
        if let Some(words) = schema["enum"].as_array() {
            words.iter().for_each(|word| judge.ask(&pointer, word.clone(), true));
            judge.ask(&pointer, json!("no-such-word"), false);
            judge.ask(&pointer, json!(words[0].as_str().expect("a word").to_uppercase()), false);
        }
        if schema.get("const").is_some() {
            judge.ask(&pointer, json!(2), false);
            judge.ask(&pointer, json!(0), false);
        }
    }
    assert!(judge.asked > 20, "{}", judge.asked);
}

#[rstest]
#[case(FileSchema::Shop)]
#[case(FileSchema::Helmets)]
#[case(FileSchema::Fallbacks)]
#[case(FileSchema::Population)]
#[case(FileSchema::Customer)]
fn values_are_of_their_type_and_lists_of_their_length(#[case] kind: FileSchema) {
    let mut judge = Judge::new(kind);
    for Spot { pointer, schema } in spots(kind).into_values().filter(|spot| !spot.pointer.is_empty()) {
        let other = match schema["type"].as_str().expect("each place has one type") {
            "object" | "array" => json!(1),
            "string" => json!([]),
            "integer" => json!(1.5),
            _ => json!("x"),
        };
        judge.ask(&pointer, other, false);
        let list = judge.whole.pointer(&pointer).and_then(Value::as_array).cloned();
        if let (Some(least), Some(list)) = (schema["minItems"].as_u64(), list) {
            let count = usize::try_from(least).expect("a short list");
            judge.ask(&pointer, list[..count].into(), true);
            judge.ask(&pointer, list[..count - 1].into(), false);
            if let Some(most) = schema["maxItems"].as_u64() {
                assert_eq!(list.len() as u64, most);
                judge.ask(&pointer, [list.as_slice(), &list[..1]].concat().into(), false);
            }
        }
    }
}

#[rstest]
#[case(FileSchema::Shop)]
#[case(FileSchema::Helmets)]
#[case(FileSchema::Fallbacks)]
#[case(FileSchema::Population)]
#[case(FileSchema::Customer)]
fn needed_keys_are_missed_and_no_others(#[case] kind: FileSchema) {
    let mut judge = Judge::new(kind);
    let whole = whole(kind);
    for Spot { pointer, schema } in spots(kind).into_values().filter(|spot| spot.schema["type"] == "object") {
        let change = |edit: &dyn Fn(&mut serde_json::Map<String, Value>)| {
            let mut document = whole.clone();
            edit(document.pointer_mut(&pointer).and_then(Value::as_object_mut).expect("a group"));
            document
        };
        let required =
            |group: &Value, key: &str| group["required"].as_array().is_some_and(|all| all.contains(&json!(key)));
        let choices = schema["oneOf"].as_array().cloned().unwrap_or_default();
        let there = whole.pointer(&pointer).and_then(Value::as_object).cloned().expect("a group");
        for key in there.keys() {
            // Of a choice between two keys the file has one, and it can't do without.
            let is_needed = required(&schema, key) || choices.iter().any(|choice| required(choice, key));
            let document = change(&|group| _ = group.remove(key));
            judge.judge(&document, !is_needed, &format!("{pointer} without {key}"));
        }
        for choice in choices.iter().filter(|choice| there.keys().all(|key| !required(choice, key))) {
            let key = choice["required"][0].as_str().expect("a key");
            let document = change(&|group| _ = group.insert(key.to_owned(), json!("thin")));
            judge.judge(&document, false, &format!("{pointer} with {key}, too"));
        }
        let document = change(&|group| _ = group.insert("no-such-key".to_owned(), json!(1)));
        judge.judge(&document, false, &format!("{pointer} with one key more"));
    }
    assert!(judge.asked > 5, "{}", judge.asked);
}

/// Rows of docs/profiles.md name the same bounds.
#[test]
fn the_document_of_the_profiles_tells_the_same_bounds() {
    let text = fs::read_to_string(root().join("docs/profiles.md")).expect("the document is there");
    let rows = text.lines().filter(|line| line.starts_with('|')).collect::<Vec<_>>();
    let names = |row: &str, key: &str| row.split(|c: char| !c.is_alphanumeric() && c != '_').any(|word| word == key);
    let mut told = 0;
    for kind in FileSchema::ALL {
        for (path, Spot { schema, .. }) in spots(kind) {
            let least = schema.get("minimum").or(schema.get("exclusiveMinimum"));
            let Some((least, most)) = least.zip(schema.get("maximum")) else { continue };
            // The measures of a mean are those of a human head: docs/diagnostics.md has them.
            if path.contains("mean_mm") {
                continue;
            }
            let bounds = format!("{least} to {most}");
            let mut keys = path.rsplit('/').filter(|key| *key != "[]").take(2);
            let is_told = keys.any(|key| rows.iter().any(|row| names(row, key) && row.contains(&bounds)));
            assert!(is_told, "no row of docs/profiles.md says that {path} is {bounds}");
            told += 1;
        }
    }
    assert!(told > 50, "{told}");
}
