//! What must hold on every page and in every picture, as browsers show them.

use super::facts::{Box, Look, Mark, Picture};
use super::seen::Seen;
use std::collections::BTreeSet;

/// Each is told in words by `broken`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Rule {
    SaysNothing,
    AsksForNothing,
    NoSidewaysScroll,
    TextsInside,
    TextsApart,
    TextsReadable,
    PicturesNamed,
    MarksAsData,
    HeadingsInOrder,
    OneMain,
    StopsInOrder,
    TargetsLarge,
    Accessible,
    SheetsWhole,
    NothingBesideTheSheet,
    NothingCutByASheet,
}

/// Pixels by which boxes may be out: letters are drawn in whole ones.
const TOLERANCE: f64 = 0.5;

/// The least contrast of words: WCAG 2.2, success criterion 1.4.3, small letters.
const CONTRAST: f64 = 4.5;

/// The least height of what is tapped: WCAG 2.2, success criterion 2.5.5.
const TARGET: f64 = 44.0;

/// ISO 216, in points, and what rounding to them takes.
const A4: (f64, f64) = (210.0 / 25.4 * 72.0, 297.0 / 25.4 * 72.0);
const A_POINT: f64 = 1.0;

impl Rule {
    /// What breaks it there, each in a line.
    pub(super) fn broken(self, seen: &Seen) -> Vec<String> {
        match self {
            Self::SaysNothing => told(&seen.facts.messages, "it says"),
            Self::AsksForNothing => told(&seen.facts.requests, "it asks for"),
            Self::NoSidewaysScroll => sideways_scroll(seen),
            Self::TextsInside => in_pictures(seen, outside),
            Self::TextsApart => in_pictures(seen, overlapping),
            Self::TextsReadable => faint(seen),
            Self::PicturesNamed => in_pictures(seen, nameless),
            Self::MarksAsData => marks(seen),
            Self::HeadingsInOrder => of_page(seen, headings),
            Self::OneMain => of_page(seen, one_main),
            Self::StopsInOrder => stops(seen),
            Self::TargetsLarge => of_page(seen, small_targets),
            Self::Accessible => violations(seen),
            Self::SheetsWhole => sheets(seen),
            Self::NothingBesideTheSheet => {
                seen.facts.print.iter().flat_map(|print| told(&print.out, "beside the sheet:")).collect()
            }
            Self::NothingCutByASheet => cut(seen),
        }
    }
}

fn told(lines: &[String], words: &str) -> Vec<String> {
    lines.iter().map(|line| format!("{words} {line}")).collect()
}

/// What a look finds at each width, of pages only: a picture by itself has neither headings nor an edge.
fn of_page(seen: &Seen, find: fn(&Look) -> Vec<String>) -> Vec<String> {
    let looks = seen.facts.looks.iter().filter(|_| seen.facts.print.is_some());
    looks.flat_map(|look| find(look).into_iter().map(|what| format!("at {} px: {what}", look.width))).collect()
}

fn in_pictures(seen: &Seen, find: fn(&Picture) -> Vec<String>) -> Vec<String> {
    let pictures = seen
        .facts
        .looks
        .iter()
        .flat_map(|look| look.pictures.iter().enumerate().map(move |(at, picture)| (look.width, at + 1, picture)));
    pictures
        .flat_map(|(width, number, picture)| {
            let lines = find(picture).into_iter();
            lines.map(move |what| format!("at {width} px, picture {number}: {what}")).collect::<Vec<_>>()
        })
        .collect()
}

fn sideways_scroll(seen: &Seen) -> Vec<String> {
    of_page(seen, |look| {
        let (width, room) = (look.scroll_width, look.client_width);
        let widest = look.widest.as_deref().unwrap_or("nothing that is seen");
        (width > room).then(|| format!("{width} px wide, because of {widest}")).into_iter().collect()
    })
}

fn outside(picture: &Picture) -> Vec<String> {
    let mut found = Vec::new();
    for text in &picture.texts {
        if !is_within(text.r#box, picture.r#box) {
            let place = beside(text.r#box, picture.r#box);
            found.push(format!("{:?} is outside: {place}", text.words));
        }
        if let Some(frame) = text.frame.filter(|frame| !is_within(text.r#box, *frame)) {
            let place = beside(text.r#box, frame);
            found.push(format!("{:?} is outside of the rectangle that it stands on: {place}", text.words));
        }
    }
    found
}

fn is_within(own: Box, other: Box) -> bool {
    own.left >= other.left - TOLERANCE
        && own.top >= other.top - TOLERANCE
        && own.right <= other.right + TOLERANCE
        && own.bottom <= other.bottom + TOLERANCE
}

/// A box as it lies in another, from the corner of that.
fn beside(own: Box, other: Box) -> String {
    let [left, right] = [own.left, own.right].map(|x| x - other.left);
    let [top, bottom] = [own.top, own.bottom].map(|y| y - other.top);
    let [width, height] = [other.right - other.left, other.bottom - other.top];
    format!("{left:.0} to {right:.0} of {width:.0} px across, {top:.0} to {bottom:.0} of {height:.0} px down")
}

fn overlapping(picture: &Picture) -> Vec<String> {
    let mut found = Vec::new();
    for (at, a) in picture.texts.iter().enumerate() {
        for b in &picture.texts[at + 1..] {
            let across = a.r#box.right.min(b.r#box.right) - a.r#box.left.max(b.r#box.left);
            let down = a.r#box.bottom.min(b.r#box.bottom) - a.r#box.top.max(b.r#box.top);
            if across > TOLERANCE && down > TOLERANCE {
                found.push(format!("{:?} and {:?} overlap by {across:.1} x {down:.1} px", a.words, b.words));
            }
        }
    }
    found
}

fn faint(seen: &Seen) -> Vec<String> {
    let faint = seen.facts.inks.iter().filter(|ink| contrast(ink.ink, ink.ground) < CONTRAST);
    faint
        .map(|ink| {
            let ratio = contrast(ink.ink, ink.ground);
            format!("{}: {:?} is {:?} on {:?}, {ratio:.2} to 1", ink.scheme, ink.words, ink.ink, ink.ground)
        })
        .collect()
}

/// WCAG 2.2, relative luminance and contrast ratio.
fn contrast(a: [f64; 3], b: [f64; 3]) -> f64 {
    let luminance = |colour: [f64; 3]| {
        let linear = colour
            .map(|part| part / 255.0)
            .map(|part| if part <= 0.04045 { part / 12.92 } else { ((part + 0.055) / 1.055).powf(2.4) });
        0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
    };
    let [a, b] = [a, b].map(luminance);
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

fn nameless(picture: &Picture) -> Vec<String> {
    let one = |texts: &[String]| matches!(texts, [text] if !text.is_empty());
    let parts = [("title", &picture.titles), ("desc", &picture.descriptions)];
    let lacking = parts.into_iter().filter(|(_, texts)| !picture.is_decoration && !one(texts));
    lacking.map(|(name, texts)| format!("its <{name}> is {texts:?}")).collect()
}

fn marks(seen: &Seen) -> Vec<String> {
    let mut found = in_pictures(seen, |picture| {
        let place = |mark: &Mark| format!("data-{} {:?}", mark.kind, mark.key);
        let mut before = BTreeSet::new();
        let twice = picture.marks.iter().filter(|mark| !before.insert((&mark.kind, &mark.key)));
        let twice: Vec<String> = twice.map(|mark| format!("{} is there twice", place(mark))).collect();
        let bare = picture.marks.iter().filter(|mark| !matches!(&mark.titles[..], [text] if !text.is_empty()));
        let bare = bare.map(|mark| format!("the title of {} is {:?}", place(mark), mark.titles));
        twice.into_iter().chain(bare).collect()
    });
    // Widths change nothing of what is on a picture.
    let marks = || seen.facts.looks[0].pictures.iter().flat_map(|picture| &picture.marks);
    let kinds: BTreeSet<&String> = marks().map(|mark| &mark.kind).chain(seen.keys.keys()).collect();
    for kind in kinds {
        let shown: BTreeSet<String> = marks().filter(|mark| mark.kind == *kind).map(|mark| mark.key.clone()).collect();
        let Some(expected) = seen.keys.get(kind) else {
            found.push(format!("nothing says what data-{kind} must be: give the page's row a function for it"));
            continue;
        };
        found.extend(expected.difference(&shown).map(|key| format!("data-{kind} {key:?} is missing")));
        found.extend(shown.difference(expected).map(|key| format!("data-{kind} {key:?} is not in the data")));
    }
    found
}

fn headings(look: &Look) -> Vec<String> {
    let mut found = Vec::new();
    let ones = look.headings.iter().filter(|heading| heading.level == 1).count();
    if ones != 1 {
        found.push(format!("{ones} headings of level 1"));
    }
    let mut before = 0;
    for heading in &look.headings {
        if heading.level > before + 1 {
            found.push(format!("{:?} has level {} behind level {before}", heading.words, heading.level));
        }
        before = heading.level;
    }
    found
}

fn one_main(look: &Look) -> Vec<String> {
    let mains = look.landmarks.iter().filter(|landmark| *landmark == "main").count();
    (mains != 1).then(|| format!("{mains} main landmarks of {:?}", look.landmarks)).into_iter().collect()
}

fn stops(seen: &Seen) -> Vec<String> {
    let stops = &seen.facts.stops;
    let back = stops.windows(2).filter(|pair| pair[1].place < pair[0].place);
    let back = back.map(|pair| format!("from {} the tab key leads back to {}", pair[0].name, pair[1].name));
    let reached: BTreeSet<usize> = stops.iter().map(|stop| stop.place).collect();
    // The keys were pressed at the last width.
    let targets = seen.facts.looks.last().map_or(&[][..], |look| &look.targets);
    let missed = targets.iter().filter(|target| seen.facts.print.is_some() && !reached.contains(&target.place));
    back.chain(missed.map(|target| format!("the tab key doesn't reach {}", target.name))).collect()
}

fn small_targets(look: &Look) -> Vec<String> {
    let small = look.targets.iter().filter(|target| !target.is_in_text && target.height < TARGET);
    small.map(|target| format!("{} is {:.1} px high", target.name, target.height)).collect()
}

fn violations(seen: &Seen) -> Vec<String> {
    let told = seen.facts.violations.iter().map(|violation| {
        let why = violation.why.replace('\n', " ");
        format!("{}: {}: {}: {}; {why}", violation.scheme, violation.rule, violation.element, violation.help)
    });
    told.collect()
}

fn sheets(seen: &Seen) -> Vec<String> {
    let sheets = seen.facts.print.iter().flat_map(|print| print.sheets.iter().enumerate());
    let mut found = Vec::new();
    let printed = seen.facts.print.iter().map(|print| print.sheets.len());
    for (number, expected) in printed.zip(seen.sheets).filter(|(number, expected)| number != expected) {
        found.push(format!("it takes {number} sheets and not {expected}"));
    }
    for (at, sheet) in sheets {
        if (sheet.width - A4.0).abs() > A_POINT || (sheet.height - A4.1).abs() > A_POINT {
            found.push(format!("sheet {} has {:.0} x {:.0} points", at + 1, sheet.width, sheet.height));
        }
        if sheet.texts == 0 {
            found.push(format!("sheet {} has no text", at + 1));
        }
    }
    found
}

fn cut(seen: &Seen) -> Vec<String> {
    let Some(print) = &seen.facts.print else { return Vec::new() };
    // Browsers cut no picture that a sheet has room for.
    let high = print.pictures.iter().filter(|picture| picture.height > print.room_height + TOLERANCE);
    let high = high.map(|picture| {
        format!("{} is {:.0} px high, a sheet has {:.0}", picture.name, picture.height, print.room_height)
    });
    if print.rows.len() != print.printed_rows.len() {
        return high
            .chain([format!("{} of {} rows are printed", print.printed_rows.len(), print.rows.len())])
            .collect();
    }
    let rows = print.rows.iter().zip(&print.printed_rows).filter(|(row, sheets)| !row.is_head && sheets.len() > 1);
    high.chain(rows.map(|(row, sheets)| format!("{} is on the sheets {sheets:?}", row.name))).collect()
}
