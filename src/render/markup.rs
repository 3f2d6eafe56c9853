//! Text that is nothing but text in HTML and SVG.

use crate::diag::is_invisible;

/// A text with all that means something to a reader of markup written out, and a sign in place of what nobody sees.
pub(super) fn escaped(text: &str) -> String {
    let mut shown = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            '&' => shown.push_str("&amp;"),
            '<' => shown.push_str("&lt;"),
            '>' => shown.push_str("&gt;"),
            '"' => shown.push_str("&quot;"),
            '\'' => shown.push_str("&#39;"),
            // XML has no way to write the last two.
            '\u{fffe}' | '\u{ffff}' => shown.push('\u{fffd}'),
            invisible if is_invisible(invisible) => shown.push('\u{fffd}'),
            other => shown.push(other),
        }
    }
    shown
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_means_anything_to_a_reader() {
        assert_eq!(escaped(r#"<b>&"'"#), "&lt;b&gt;&amp;&quot;&#39;");
        assert_eq!(escaped("a\u{ffff}é\u{202e}"), "a\u{fffd}é\u{fffd}");
    }
}
