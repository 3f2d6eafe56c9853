//! What `tests/browser/measure.mjs` writes down. Lengths are pixels of CSS unless they say otherwise.

use serde::Deserialize;

/// Of one page or picture.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Facts {
    pub(super) name: String,
    /// What it wrote to the console, and errors.
    pub(super) messages: Vec<String>,
    /// What it asked for, other than itself.
    pub(super) requests: Vec<String>,
    /// One for each width of the window.
    pub(super) looks: Vec<Look>,
    /// The colours of the texts in pictures, each pair once.
    pub(super) inks: Vec<Ink>,
    /// Where the tab key leads, in its order. Of pages only.
    pub(super) stops: Vec<Stop>,
    /// Of pages only.
    pub(super) violations: Vec<Violation>,
    /// Of pages only.
    pub(super) print: Option<Print>,
}

#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "camelCase")]
pub(super) struct Look {
    pub(super) width: u32,
    pub(super) scroll_width: f64,
    pub(super) client_width: f64,
    /// The innermost element that goes beyond the right edge.
    pub(super) widest: Option<String>,
    pub(super) headings: Vec<Heading>,
    pub(super) landmarks: Vec<String>,
    pub(super) pictures: Vec<Picture>,
    pub(super) targets: Vec<Target>,
}

#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Heading {
    pub(super) level: u8,
    pub(super) words: String,
}

#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "camelCase")]
pub(super) struct Picture {
    pub(super) r#box: Box,
    /// It says nothing that the words beside it don't.
    pub(super) is_decoration: bool,
    pub(super) titles: Vec<String>,
    pub(super) descriptions: Vec<String>,
    pub(super) texts: Vec<Text>,
    pub(super) marks: Vec<Mark>,
}

#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Box {
    pub(super) left: f64,
    pub(super) top: f64,
    pub(super) right: f64,
    pub(super) bottom: f64,
}

#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Text {
    pub(super) words: String,
    pub(super) r#box: Box,
    /// The rectangle that it stands on.
    pub(super) frame: Option<Box>,
}

/// A text and what it stands on: red, green and blue, up to 255.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ink {
    /// light or dark.
    pub(super) scheme: String,
    pub(super) words: String,
    pub(super) ink: [f64; 3],
    pub(super) ground: [f64; 3],
}

/// A shape with `data-kind="key"`.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Mark {
    pub(super) kind: String,
    pub(super) key: String,
    pub(super) titles: Vec<String>,
}

#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "camelCase")]
pub(super) struct Target {
    pub(super) name: String,
    /// Among all elements of the document.
    pub(super) place: usize,
    pub(super) height: f64,
    /// It stands between other words of a line.
    pub(super) is_in_text: bool,
}

#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Stop {
    pub(super) name: String,
    pub(super) place: usize,
}

#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Violation {
    /// light or dark.
    pub(super) scheme: String,
    pub(super) rule: String,
    pub(super) help: String,
    pub(super) element: String,
    pub(super) why: String,
}

/// The page on A4.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "camelCase")]
pub(super) struct Print {
    /// What the margins leave of a sheet.
    pub(super) room_height: f64,
    /// Elements that stick out sideways or are cut there.
    pub(super) out: Vec<String>,
    pub(super) pictures: Vec<PrintedPicture>,
    pub(super) rows: Vec<Row>,
    #[serde(rename = "pages")]
    pub(super) sheets: Vec<Sheet>,
    /// The sheets that each row is on, from 1.
    pub(super) printed_rows: Vec<Vec<usize>>,
}

#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PrintedPicture {
    pub(super) name: String,
    pub(super) height: f64,
}

#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "camelCase")]
pub(super) struct Row {
    pub(super) name: String,
    /// Of the head of a table, which is printed again on every sheet.
    pub(super) is_head: bool,
}

#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Sheet {
    /// Points.
    pub(super) width: f64,
    /// Points.
    pub(super) height: f64,
    /// How many pieces of text stand on it.
    pub(super) texts: usize,
}
