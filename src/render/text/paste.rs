//! The part of a profile that a sketch proposes, to be pasted into a file of helmets.

use crate::profile::{Model, Zone};
use crate::sketch::{Experience, Figure, NewSize, PadSource, Proposal, Saying, Sketch, Statement};
use itertools::Itertools;
use unicode_width::UnicodeWidthStr;

/// Columns of a comment.
const WIDTH: usize = 80;

/// `interior` and `shells` of a model, indented as they stand in a file of helmets. Without a date: the same words and
/// the same seed give the same text.
#[must_use]
pub fn paste(experience: &Experience<'_>, sketch: &Sketch, proposal: Proposal) -> String {
    let mut text = String::new();
    comment(&mut text, 4, &origin(experience, sketch));
    let Proposal { shape_index, sd, centre_sd } = proposal;
    let interior = format!("{{shape_index: {shape_index}, origin: by-eye, sd: {sd}, centre_sd_mm: {centre_sd}}}");
    line(&mut text, 4, &format!("interior: {interior}"));
    line(&mut text, 4, "shells:");
    comment(&mut text, 6, "check: one shell is assumed; pads go from one size to another only within a shell");
    line(&mut text, 6, "- id: all");
    line(&mut text, 8, "sizes:");
    for size in &experience.sizes {
        of_size(&mut text, size);
    }
    text
}

fn origin(experience: &Experience<'_>, sketch: &Sketch) -> String {
    let said = experience.statements.iter().map(in_ids).join("; ");
    let customers = match experience.tried.len() {
        0 => "No customer tried it.".to_owned(),
        count => format!(
            "With {count} customer{}: {:.1}±{:.1}.",
            if count == 1 { "" } else { "s" },
            sketch.index.mean.value,
            sketch.index.sd.value
        ),
    };
    format!(
        "From experience (lidladder sketch, seed {}). Said: {said}; that is {:.1}±{:.1}. {customers} The sizes are \
         {}: centre_sd_mm covers both.",
        experience.seed,
        sketch.prior.mean,
        sketch.prior.sd,
        off_label(&sketch.offset)
    )
}

/// How the sizes lie against their labels.
pub(super) fn off_label(offset: &Figure) -> String {
    let (mean, sd) = (offset.mean.value, offset.sd.value);
    match mean {
        _ if mean.abs() < 0.05 => format!("as labelled, ±{sd:.1} mm"),
        _ if mean < 0.0 => format!("{:.1}±{sd:.1} mm smaller than labelled", -mean),
        _ => format!("{mean:.1}±{sd:.1} mm larger than labelled"),
    }
}

/// Ids only: they hold nothing that would end a comment.
fn in_ids(statement: &Statement<'_>) -> String {
    match statement.said {
        Saying::Like(model, comparison) => format!("like {}, {}", model.id, comparison.id()),
        Saying::ByEye(eye) => format!("by eye about {}", eye.mean),
        Saying::Range(models, kind) => {
            format!(
                "nothing, so one more beside {models} {}models",
                kind.map_or(String::new(), |kind| format!("{} ", kind.name()))
            )
        }
    }
}

fn of_size(text: &mut String, size: &NewSize<'_>) {
    let cm = |mm: f64| (mm * 10.0).round() / 100.0;
    line(text, 10, &format!("- label: {}", scalar(size.label.as_str())));
    let (from, to) = size.circumference;
    line(text, 12, &format!("circumference_cm: [{}, {}]", cm(from), cm(to)));
    if let Some(doubt) = doubt(size) {
        comment(text, 12, &doubt);
    }
    line(text, 12, "standard_pads_mm:");
    let pads = size.standard.iter().filter_map(|(zone, mm)| mm.map(|mm| format!("{}: {mm}", zone.name()))).join(", ");
    line(text, 14, &format!("{{{pads}}}"));
}

/// Which pads nobody gave, and where they come from; `None` where all were given.
fn doubt(size: &NewSize<'_>) -> Option<String> {
    let missing = Zone::ALL.into_iter().filter(|zone| !size.given.contains(zone)).map(Zone::name).collect_vec();
    let which = match missing.len() {
        0 => return None,
        5 => "all".to_owned(),
        _ => missing.join(", "),
    };
    Some(format!("check: {which} from {}", source(size.source, |model| model.id.to_string())))
}

/// Where pads come from, a model named as wanted.
pub(super) fn source(source: PadSource<'_>, name: impl Fn(&Model) -> String) -> String {
    match source {
        PadSource::Like(model, size) => format!("{} in {}", name(model), size.label),
        PadSource::Range(sizes, kind) => {
            let kind = kind.map_or(String::new(), |kind| format!("{} ", kind.name()));
            format!("the medians of {sizes} {kind}sizes in the range")
        }
    }
}

/// A label as YAML reads it back: in quotes where it could be taken for a number or a word of YAML's own.
pub(super) fn scalar(label: &str) -> String {
    const OTHERS: [&str; 9] = ["true", "false", "null", "yes", "no", "on", "off", "y", "n"];
    let is_word = label.starts_with(|c: char| c.is_ascii_alphabetic());
    let is_other = OTHERS.iter().any(|other| other.eq_ignore_ascii_case(label));
    if is_word && !is_other { label.to_owned() } else { format!("\"{label}\"") }
}

fn line(text: &mut String, indent: usize, words: &str) {
    text.push_str(&" ".repeat(indent));
    text.push_str(words);
    text.push('\n');
}

pub(super) fn comment(text: &mut String, indent: usize, words: &str) {
    let mut row = String::from("#");
    for word in words.split_whitespace() {
        if indent + row.width() + 1 + word.width() > WIDTH {
            line(text, indent, &row);
            row = String::from("#");
        }
        row.push(' ');
        row.push_str(word);
    }
    line(text, indent, &row);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn labels_that_yaml_would_take_for_something_else_are_quoted() {
        assert_eq!(["M", "57", "No", "1e3", "XL-2"].map(scalar), ["M", "\"57\"", "\"No\"", "\"1e3\"", "XL-2"]);
    }
}
