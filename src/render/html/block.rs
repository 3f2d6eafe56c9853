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

/// A paragraph.
pub(super) fn paragraph(words: &str) -> String {
    format!("<p>{}</p>\n", escaped(words))
}

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
    let kind = |kind: ColumnKind| if kind == ColumnKind::Numbers { " class=\"n\"" } else { "" };
    let head = table.columns.iter().map(|column| {
        let name = escaped(&column.name);
        format!("<th scope=\"col\"{}>{name}</th>", kind(column.kind))
    });
    let row = |row: &Vec<Cell>| {
        let cells = row.iter().zip(&table.columns).enumerate().map(|(at, (cell, column))| {
            let text = escaped(&cell.text);
            match (at, cell.share) {
                (0, _) => format!("<th scope=\"row\">{text}</th>"),
                (_, Some(share)) => format!("<td class=\"n s{}\">{text}</td>", shade(share)),
                (_, None) => format!("<td{}>{text}</td>", kind(column.kind)),
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

/// Five grounds, the stronger the more. The number in the cell says the same.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from 0 to 4")]
fn shade(share: f64) -> u8 {
    (share.clamp(0.0, 1.0) * 5.0).min(4.0) as u8
}
