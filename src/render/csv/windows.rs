//! Windows: boxes of heads for a database.

use super::{text, written};
use crate::range::{Span, Window, WindowPads};
use itertools::Itertools;

const HEADER: [&str; 13] = [
    "maker",
    "model",
    "shell",
    "size",
    "pads",
    "length_from",
    "length_to",
    "breadth_from",
    "breadth_to",
    "face_width_from",
    "face_width_to",
    "minutes",
    "price",
];

/// What an axis without pads has in place of an infinity, mm: not every database reads one, and an empty cell would
/// match no head.
const ANY: f64 = 1e9;

/// A row for each window. Every number, read again, is the one that the program compares heads with.
#[must_use]
pub fn windows(windows: &[Window<'_>]) -> String {
    let header = HEADER.map(str::to_owned).to_vec();
    std::iter::once(header).chain(windows.iter().map(row)).map(|row| written(&row)).collect()
}

fn row(window: &Window<'_>) -> Vec<String> {
    let candidate = window.candidate;
    let (pads, minutes, price) = match &window.pads {
        WindowPads::Standard => ("standard".to_owned(), "0".to_owned(), "0.00".to_owned()),
        WindowPads::OnOffer => ("on-offer".to_owned(), String::new(), String::new()),
        WindowPads::Set { swapped, minutes, price } => {
            let pads = swapped.iter().map(|(zone, mm)| format!("{}={mm}", zone.name())).join(" ");
            (pads, minutes.to_string(), price.to_string())
        }
    };
    let mut row = vec![
        text(&candidate.model.maker),
        candidate.model.id.to_string(),
        candidate.shell.id.to_string(),
        candidate.size.label.to_string(),
        pads,
    ];
    row.extend(window.spans.iter().flat_map(|Span { from, to }| [from, to]).map(|mm| mm.clamp(-ANY, ANY).to_string()));
    row.extend([minutes, price]);
    row
}
