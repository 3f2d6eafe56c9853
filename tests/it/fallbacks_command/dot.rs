//! The graph in the DOT language, read back by its grammar: quoted texts, arrows and lists of attributes.

use super::{SMALL, shop};
use crate::support::once;
use std::collections::BTreeMap;

/// A statement: a node, or the two ends of an edge, with its attributes.
type Statement = (Vec<String>, BTreeMap<String, String>);

/// Words of a DOT text: quoted texts with their escapes undone, and everything else by its signs.
fn words(text: &str) -> Vec<String> {
    let mut words = Vec::new();
    let mut rest = text.trim_start();
    while let Some(first) = rest.chars().next() {
        let length = match first {
            '"' => {
                let mut is_escaped = false;
                let end = rest[1..].find(|c| {
                    let ends = c == '"' && !is_escaped;
                    is_escaped = c == '\\' && !is_escaped;
                    ends
                });
                end.expect("a quoted text has an end") + 2
            }
            c if c.is_alphanumeric() => rest.find(|c: char| !c.is_alphanumeric()).unwrap_or(rest.len()),
            '-' => 2,
            c => c.len_utf8(),
        };
        words.push(rest[..length].to_owned());
        rest = rest[length..].trim_start();
    }
    words
}

fn unquoted(word: &str) -> String {
    let inner = word.strip_prefix('"').and_then(|word| word.strip_suffix('"')).unwrap_or(word);
    inner.replace("\\\"", "\"").replace("\\\\", "\\")
}

fn statements(text: &str) -> Vec<Statement> {
    let words = words(text);
    let (head, body) = words.split_at(3);
    assert_eq!(head, ["digraph", "fallbacks", "{"]);
    let (last, body) = body.split_last().expect("a graph has an end");
    assert_eq!(last, "}");
    let statement = |words: &[String]| {
        let open = words.iter().position(|word| word == "[").expect("every statement has attributes");
        let ends = words[..open].iter().filter(|word| *word != "->").map(|word| unquoted(word)).collect();
        let (close, pairs) = words[open + 1..].split_last().expect("a list has an end");
        assert_eq!(close, "]");
        let pairs = pairs.split(|word| word == ",").map(|pair| {
            let [key, equals, value] = pair else { panic!("{pair:?}") };
            assert_eq!(equals, "=");
            (key.clone(), unquoted(value))
        });
        (ends, pairs.collect())
    };
    body.split(|word| word == ";").filter(|words| !words.is_empty()).map(statement).collect()
}

#[test]
fn parallel_rules_stay_apart_in_the_order_of_the_file() {
    let run = shop(SMALL).run("fallbacks --profiles profiles --format dot");
    let statements = statements(run.good());
    let edges: Vec<_> = statements.iter().filter(|(ends, _)| ends.len() == 2).collect();
    let shown: Vec<_> =
        edges.iter().map(|(ends, with)| (ends[0].as_str(), with["label"].as_str(), ends[1].as_str())).collect();
    let expected = [
        ("plover-long", "too-oval (same)", "plover-middle"),
        ("plover-long", "too-noisy", "plover-wide"),
        ("plover-long", "too-oval (up)", "plover-wide"),
        ("plover-middle", "too-round (M)", "plover-long"),
        ("plover-middle", "turns-on-head (down)", "plover-wide"),
    ];
    assert_eq!(shown, expected);
    let styles: Vec<_> = edges.iter().map(|(_, with)| with["style"].as_str()).collect();
    assert_eq!(styles, ["solid", "dashed", "solid", "solid", "bold"]);
}

#[test]
fn names_and_notes_come_back_as_they_were() {
    let folder = shop(SMALL);
    folder.edit("profiles/helmets/plover.yaml", "name: Plover Long", r#"name: '<b>&"\n'"#);
    folder.edit("profiles/fallbacks.yaml", r#""first choice""#, r#"'a "b"; c -> d \'"#);
    let run = folder.run("fallbacks --profiles profiles --format dot");
    let statements = statements(run.good());
    let node = statements.iter().find(|(ends, _)| *ends == ["plover-long"]).expect("the model is there");
    assert_eq!(node.1["label"], r#"<b>&"\n"#);
    let edge = statements.iter().find(|(ends, _)| ends.len() == 2).expect("there are rules");
    assert_eq!(edge.1["tooltip"], r#"a "b"; c -> d \"#);
}

#[test]
fn the_built_in_graph_is_whole() {
    let run = once("fallbacks --format dot");
    let counts = statements(run.good()).iter().fold([0; 3], |mut counts, (ends, _)| {
        counts[ends.len()] += 1;
        counts
    });
    // One statement, on how all models look, has no model.
    assert_eq!(counts, [0, 16 + 1, 86]);
}
