//! What pages are made of: sections, lists, tables, pictures.

use crate::render::markup::escaped;
use crate::render::svg::Picture;
use crate::render::table::{Cell, ColumnKind, Table};
use itertools::Itertools;

/// A part of a page under a heading of the second rank; `key` is its place for links, and its name for the style.
pub(super) fn section(key: &str, title: &str, parts: &[String]) -> String {
    let (key, title) = (escaped(key), escaped(title));
    format!("<section class=\"{key}\" id=\"{key}\">\n<h2>{title}</h2>\n{}</section>\n", parts.concat())
}

/// A paragraph; commands in it, which stand in backticks, look like what one types.
pub(super) fn paragraph(words: &str) -> String {
    let mut parts = words.split(COMMAND);
    let first = escaped(parts.next().unwrap_or_default());
    let others = parts.map(|part| match part.split_once('`') {
        Some((command, rest)) => {
            format!("<code>{}</code>{}", escaped(&format!("{}{command}", &COMMAND[1..])), escaped(rest))
        }
        None => escaped(&format!("{COMMAND}{part}")),
    });
    format!("<p>{first}{}</p>\n", others.collect::<String>())
}

/// What a command in words begins with.
const COMMAND: &str = "`lidladder ";

/// Lines of a list.
pub(super) fn list<T: AsRef<str>>(lines: &[T]) -> String {
    format!("<ul>\n{}</ul>\n", lines.iter().map(|line| format!("<li>{}</li>\n", escaped(line.as_ref()))).join(""))
}

/// Names with what is said of each.
pub(super) fn facts<N: AsRef<str>, T: AsRef<str>>(facts: &[(N, T)]) -> String {
    let fact =
        |(name, text): &(N, T)| format!("<dt>{}</dt><dd>{}</dd>\n", escaped(name.as_ref()), escaped(text.as_ref()));
    format!("<dl>\n{}</dl>\n", facts.iter().map(fact).join(""))
}

/// Columns that have room on a telephone.
const NARROW_TABLE: usize = 4;

/// Width that a telephone has for a picture.
const NARROW_PICTURE: f64 = 340.0;

/// What a reader must look at first; nothing where there is nothing.
pub(super) fn warnings<'a>(messages: impl IntoIterator<Item = &'a str>) -> String {
    let lines = messages.into_iter().map(|message| format!("<p><b>Look here:</b> {}</p>\n", escaped(message))).join("");
    if lines.is_empty() { lines } else { format!("<div class=\"warnings\">\n{lines}</div>\n") }
}

/// Parts of a page with its figure at their side, where there is room.
pub(super) fn beside(parts: &[String]) -> String {
    format!("<div class=\"beside\">\n{}</div>\n", parts.concat())
}

/// What must be said at the end of every page that a fitter acts on.
pub(super) fn cautions(cautions: &[&str]) -> String {
    section("cautions", "Cautions", &[list(cautions)])
}

/// A picture with words below it. One that is wider than the page is moved within its frame, with a finger or with keys.
pub(super) fn figure(picture: &Picture, caption: &str) -> String {
    let caption =
        if caption.is_empty() { String::new() } else { format!("<figcaption>{}</figcaption>\n", escaped(caption)) };
    let drawn = picture.inline();
    let drawn = if picture.width() > NARROW_PICTURE { wide(picture.title(), &drawn) } else { drawn };
    format!("<figure>\n{drawn}{caption}</figure>\n")
}

/// A table, with a caption that says what it tells.
pub(super) fn table(caption: &str, table: &Table) -> String {
    if table.columns.len() <= NARROW_TABLE {
        return bare_table(caption, table);
    }
    // The words stay where they are when the table is moved.
    format!("<p class=\"caption\">{}</p>\n{}", escaped(caption), wide(caption, &bare_table("", table)))
}

/// A table that has room on every page as it is: of few columns, or with a style that gives it some.
pub(super) fn bare_table(caption: &str, table: &Table) -> String {
    let head = table.columns.iter().map(|column| {
        let class = class(&[number(column.kind), long(&column.name)]);
        format!("<th scope=\"col\"{class}>{}</th>", escaped(&column.name))
    });
    let row = |row: &Vec<Cell>| {
        let cells = row.iter().zip(&table.columns).enumerate().map(|(at, (cell, column))| {
            let (text, long) = (escaped(&cell.text), long(&cell.text));
            match (at, cell.share) {
                (0, _) => format!("<th scope=\"row\"{}>{text}</th>", class(&[long])),
                (_, Some(share)) => format!("<td{}>{text}</td>", class(&["n", shade(share), long])),
                (_, None) => format!("<td{}>{text}</td>", class(&[number(column.kind), long])),
            }
        });
        format!("<tr>{}</tr>\n", cells.collect_vec().concat())
    };
    let rows = table.rows.iter().map(row).join("");
    let head = head.collect_vec().concat();
    let caption = match escaped(caption) {
        none if none.is_empty() => none,
        words => format!("<caption>{words}</caption>\n"),
    };
    format!("<table>\n{caption}<thead>\n<tr>{head}</tr>\n</thead>\n<tbody>\n{rows}</tbody>\n</table>\n")
}

/// Something that may be wider than the page: it moves in a frame of its own, which keys reach, too.
fn wide(name: &str, inner: &str) -> String {
    format!("<div class=\"wide\" role=\"region\" aria-label=\"{}\" tabindex=\"0\">\n{inner}</div>\n", escaped(name))
}

/// Letters of a word that stays whole in a table.
const LONGEST_WORD: usize = 16;

/// The classes that a cell has, as its attribute.
fn class(names: &[&str]) -> String {
    let names = names.iter().filter(|name| !name.is_empty()).join(" ");
    if names.is_empty() { names } else { format!(" class=\"{names}\"") }
}

fn number(kind: ColumnKind) -> &'static str {
    if kind == ColumnKind::Numbers { "n" } else { "" }
}

/// Words that no column is wide enough for; only those are broken anywhere.
fn long(text: &str) -> &'static str {
    if text.split_whitespace().any(|word| word.chars().count() > LONGEST_WORD) { "long" } else { "" }
}

/// Five grounds, the stronger the more. The number in the cell says the same.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from 0 to 4")]
fn shade(share: f64) -> &'static str {
    ["s0", "s1", "s2", "s3", "s4"][(share.clamp(0.0, 1.0) * 5.0).min(4.0) as usize]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn commands_look_like_what_one_types() {
        assert_eq!(
            paragraph("See `lidladder range <x>` and `lidladder fit`, or `this`."),
            "<p>See <code>lidladder range &lt;x&gt;</code> and <code>lidladder fit</code>, or `this`.</p>\n"
        );
        assert_eq!(paragraph("`lidladder open"), "<p>`lidladder open</p>\n");
    }
}
