//! A page of text: headings, wrapped lines, columns.

use unicode_width::UnicodeWidthStr;

/// Columns of a page.
pub(super) const WIDTH: usize = 80;

/// Where an answer is typed.
pub const PROMPT: &str = "> ";

const BOLD: anstyle::Style = anstyle::Style::new().bold();

/// Text in the making.
#[derive(Debug, Default)]
pub(super) struct Page {
    text: String,
}

impl Page {
    /// A heading, with an empty line before it but at the top.
    pub(super) fn heading(&mut self, heading: &str) {
        if !self.text.is_empty() {
            self.text.push('\n');
        }
        self.line(&bold(heading));
    }

    /// A line as it is.
    pub(super) fn line(&mut self, line: &str) {
        self.text.push_str(line.trim_end());
        self.text.push('\n');
    }

    /// Words, broken at the page's width; the first line begins with `first`, the others with as many spaces.
    pub(super) fn wrapped(&mut self, first: &str, words: &str) {
        self.hanging(first, first.width(), words);
    }

    /// The same with the following lines indented by `indent`.
    pub(super) fn hanging(&mut self, first: &str, indent: usize, words: &str) {
        let mut line = first.to_owned();
        let mut is_fresh = true;
        for word in words.split_whitespace() {
            if !is_fresh && width(&line) + 1 + width(word) > WIDTH {
                self.line(&line);
                line = " ".repeat(indent);
                is_fresh = true;
            }
            if !is_fresh {
                line.push(' ');
            }
            line.push_str(word);
            is_fresh = false;
        }
        self.line(&line);
    }

    /// What a reader must look at first.
    pub(super) fn warnings<'a>(&mut self, messages: impl Iterator<Item = &'a str>) {
        messages.for_each(|message| self.hanging(&bold("LOOK HERE  "), 11, message));
    }

    /// What must be said at the end of every page that a fitter acts on.
    pub(super) fn cautions(&mut self, cautions: &[&str]) {
        self.heading("CAUTIONS");
        cautions.iter().for_each(|caution| self.wrapped("  - ", caution));
    }

    pub(super) fn finish(self) -> String {
        self.text
    }
}

/// Emphasised where colours are shown.
pub(super) fn bold(text: &str) -> String {
    format!("{BOLD}{text}{BOLD:#}")
}

/// Columns that a text takes, emphasis not counted.
fn width(text: &str) -> usize {
    let mut columns = 0;
    for (at, part) in text.split('\u{1b}').enumerate() {
        let shown = if at == 0 { part } else { part.split_once('m').map_or("", |(_, shown)| shown) };
        columns += shown.width();
    }
    columns
}

/// A text cut or filled to a number of columns.
pub(super) fn fixed(text: &str, columns: usize) -> String {
    let mut kept = String::new();
    for c in text.chars() {
        if kept.width() + UnicodeWidthStr::width(c.encode_utf8(&mut [0; 4]) as &str) > columns {
            break;
        }
        kept.push(c);
    }
    let fill = columns - kept.width();
    kept.push_str(&" ".repeat(fill));
    kept
}

/// A probability in whole percents; what is possible but rounds to 0 says so.
pub(in crate::render) fn percent(probability: f64) -> String {
    // A sum of nothing is -0, which nobody should read.
    let percent = (probability * 100.0).round() + 0.0;
    if percent < 1.0 && probability > 0.0 { "<1 %".to_owned() } else { format!("{percent:.0} %") }
}

/// Whole minutes.
pub(super) fn whole_minutes(minutes: f64) -> String {
    format!("{:.0}", minutes.round() + 0.0)
}

/// Millimetres without needless decimals.
pub(in crate::render) fn mm(value: f64) -> String {
    let text = format!("{value:.1}");
    text.strip_suffix(".0").map_or(text.clone(), str::to_owned)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_break_at_eighty_columns_and_hang() {
        let mut page = Page::default();
        page.wrapped("  - ", &"word ".repeat(40));
        let text = page.finish();
        assert!(text.lines().all(|line| line.width() <= WIDTH));
        assert!(text.lines().skip(1).all(|line| line.starts_with("    word")));
    }

    #[test]
    fn emphasis_takes_no_columns() {
        assert_eq!(width(&bold("abc")), 3);
        assert_eq!(fixed("Größe und mehr", 7), "Größe u");
    }

    #[test]
    fn small_is_not_nothing() {
        assert_eq!([percent(-0.0), percent(0.002), percent(0.5)], ["0 %", "<1 %", "50 %"]);
        assert_eq!([whole_minutes(-0.0), whole_minutes(7.6)], ["0", "8"]);
        assert_eq!([mm(12.0), mm(12.5)], ["12", "12.5"]);
    }
}
