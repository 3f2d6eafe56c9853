//! Pages for a browser: each is one file by itself, without scripts and without anything from elsewhere.

mod cards;
mod sheet;

pub use cards::cards;
pub use sheet::sheet;

use crate::diag::is_invisible;
use itertools::Itertools;

/// A page with a title, a style and a body; the style is ours.
fn page(title: &str, style: &str, body: &str) -> String {
    let title = escaped(title);
    format!(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\"/>\n\
         <title>{title}</title>\n<style>\n{style}</style>\n</head>\n<body>\n{body}</body>\n</html>\n"
    )
}

/// Lines of a list.
fn list<T: AsRef<str>>(lines: &[T]) -> String {
    format!("<ul>\n{}</ul>\n", lines.iter().map(|line| format!("<li>{}</li>\n", escaped(line.as_ref()))).join(""))
}

/// A paragraph.
fn paragraph(words: &str) -> String {
    format!("<p>{}</p>\n", escaped(words))
}

/// A text that is nothing but a text on a page.
fn escaped(text: &str) -> String {
    let mut shown = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            '&' => shown.push_str("&amp;"),
            '<' => shown.push_str("&lt;"),
            '>' => shown.push_str("&gt;"),
            '"' => shown.push_str("&quot;"),
            '\'' => shown.push_str("&#39;"),
            invisible if is_invisible(invisible) => shown.push('\u{fffd}'),
            other => shown.push(other),
        }
    }
    shown
}
