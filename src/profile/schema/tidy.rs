//! Makes a generated schema as plain as the file that it describes.

use schemars::Schema;
use serde_json::{Map, Value};

/// Tidies one schema; those within it come next.
pub(super) fn tidy(schema: &mut Schema) {
    let Some(schema) = schema.as_object_mut() else { return };
    without_nothing(schema);
    words_in_a_row(schema);
    // It names a type of this program, and `number` or `integer` says all that a file needs.
    schema.remove("format");
    // That what is left out is left out goes without saying.
    schema.remove("default");
}

/// What may be left out is left out: a key with nothing behind it is a slip that an editor should show.
fn without_nothing(schema: &mut Map<String, Value>) {
    if let Some(Value::Array(types)) = schema.get_mut("type") {
        types.retain(|name| name != "null");
        if let [only] = types.as_slice() {
            let only = only.clone();
            schema.insert("type".to_owned(), only);
        }
    }
    if let Some(Value::Array(words)) = schema.get_mut("enum") {
        words.retain(|word| !word.is_null());
    }
    let Some(Value::Array(choices)) = schema.get_mut("anyOf") else { return };
    choices.retain(|choice| choice.get("type").is_none_or(|name| name != "null"));
    if let [Value::Object(only)] = choices.as_slice() {
        let only = only.clone();
        schema.remove("anyOf");
        for (key, value) in only {
            // What is said beside a key comes before what its type says.
            schema.entry(key).or_insert(value);
        }
    }
}

/// A choice of words, each with a description, as the list of the words and the list of the descriptions: editors
/// complete from a list, and tell all the words when none is met.
fn words_in_a_row(schema: &mut Map<String, Value>) {
    let Some(Value::Array(choices)) = schema.get("oneOf") else { return };
    let part = |key: &str| choices.iter().map(|choice| choice.get(key).cloned()).collect::<Option<Vec<_>>>();
    let Some((words, descriptions)) = part("const").zip(part("description")) else { return };
    schema.remove("oneOf");
    schema.insert("type".to_owned(), "string".into());
    schema.insert("enum".to_owned(), words.into());
    schema.insert("enumDescriptions".to_owned(), descriptions.into());
}
