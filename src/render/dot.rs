//! Graphs in the DOT language, for general graph tools.

use crate::fallback::Excerpt;
use crate::profile::{Edge, Nature};

/// The rules as a directed graph: one edge a rule, parallel ones kept. The kinds differ by the style of their lines.
#[must_use]
pub fn fallbacks(excerpt: &Excerpt<'_>) -> String {
    let mut text = "digraph fallbacks {\n  node [shape=box];\n".to_owned();
    for model in &excerpt.models {
        let id = quoted(model.id.as_str());
        text.push_str(&format!("  {id} [label={}, tooltip={id}];\n", quoted(&model.name)));
    }
    for (_, edge) in &excerpt.rules {
        text.push_str(&line(edge));
    }
    text.push_str("}\n");
    text
}

fn line(edge: &Edge) -> String {
    let label = match &edge.size {
        Some(size) => format!("{} ({})", edge.reason.id(), size.as_written()),
        None => edge.reason.id().to_owned(),
    };
    let [from, to, label, note] = [edge.from.as_str(), edge.to.as_str(), &label, &edge.note].map(quoted);
    format!("  {from} -> {to} [label={label}, tooltip={note}, {}];\n", style(edge.reason.nature()))
}

fn style(nature: Nature) -> &'static str {
    match nature {
        Nature::Geometric => "style=solid",
        Nature::Experience => "style=dashed",
        // Two lines side by side.
        Nature::Stop => "style=bold, color=\"black:invis:black\"",
    }
}

/// A text in quotes. A backslash begins an escape in labels, so that it is doubled to stand for itself.
fn quoted(text: &str) -> String {
    format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\""))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quotes_and_backslashes_stand_for_themselves() {
        assert_eq!(quoted(r#"a "b" \n"#), r#""a \"b\" \\n""#);
    }
}
