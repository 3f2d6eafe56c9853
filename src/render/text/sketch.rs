//! A sketch for people.

use super::head::readings;
use super::page::{Page, bold, mm, percent};
use super::paste::{off_label, source};
use crate::catalogue::Catalogue;
use crate::profile::Zone;
use crate::render::json::Warning;
use crate::sketch::{Comparison, Experience, Heard, NewSize, Saying, Sketch, Statement, Tried};
use itertools::Itertools;

/// The sketch as a page; `paste` is the part of a profile that it proposes.
#[must_use]
pub fn sketch(
    catalogue: &Catalogue,
    experience: &Experience<'_>,
    sketch: &Sketch,
    paste: &str,
    warnings: &[Warning],
    cautions: &[&str],
) -> String {
    let mut page = Page::default();
    page.warnings(warnings.iter().map(|warning| warning.message.as_str()));
    said(&mut page, catalogue, experience, sketch);
    figures(&mut page, catalogue, sketch);
    customers(&mut page, catalogue, experience, sketch);
    page.heading("PASTE into a model of a helmets file, in place of its interior and shells");
    paste.lines().for_each(|line| page.line(line));
    page.cautions(cautions);
    page.finish()
}

/// How often something so improbable comes, to go before "such groups": `1 in 50`.
#[must_use]
pub fn rarely(probability: f64) -> String {
    let one_in = (1.0 / probability.max(1e-9)).round();
    if one_in > 1000.0 { "less than 1 in 1000".to_owned() } else { format!("about 1 in {one_in:.0}") }
}

fn said(page: &mut Page, catalogue: &Catalogue, experience: &Experience<'_>, sketch: &Sketch) {
    page.heading("SAID of the shape");
    for statement in &experience.statements {
        let index = statement.index;
        page.wrapped("  - ", &format!("{}: index {:.1}±{:.1}", words(catalogue, statement), index.mean, index.sd));
    }
    if experience.statements.len() > 1 {
        page.line(&format!("    together: index {:.1}±{:.1}", sketch.prior.mean, sketch.prior.sd));
    }
    for size in &experience.sizes {
        page.wrapped("  - ", &pads(size));
    }
}

fn words(catalogue: &Catalogue, statement: &Statement<'_>) -> String {
    match statement.said {
        Saying::Like(model, comparison) => format!("{} {}", compared(comparison), model.name),
        Saying::ByEye(eye) => format!("{} by eye", catalogue.shop.words.word(eye.mean)),
        Saying::Range(models, kind) => format!(
            "nothing, so it is one more helmet beside the {models} {}models of the range",
            kind.map_or(String::new(), |kind| format!("{} ", kind.name()))
        ),
    }
}

fn compared(comparison: Comparison) -> &'static str {
    match comparison {
        Comparison::MuchLonger => "much longer than",
        Comparison::Longer => "longer than",
        Comparison::Same => "the same as",
        Comparison::Rounder => "rounder than",
        Comparison::MuchRounder => "much rounder than",
    }
}

/// A size with its standard pads and where they come from.
fn pads(size: &NewSize<'_>) -> String {
    let thickness = size.standard.iter().filter_map(|(zone, pad)| Some(format!("{} {}", zone.name(), mm((*pad)?))));
    let missing = Zone::ALL.into_iter().filter(|zone| !size.given.contains(zone)).map(Zone::name).collect_vec();
    let from = match missing.len() {
        0 => "given".to_owned(),
        5 => format!("as {}", source(size.source, |model| model.name.clone())),
        _ => format!("{} as {}", missing.join(", "), source(size.source, |model| model.name.clone())),
    };
    format!("{} with the pads {} mm ({from})", size.label, { thickness }.join(", "))
}

fn figures(page: &mut Page, catalogue: &Catalogue, sketch: &Sketch) {
    page.heading("SKETCH");
    let (index, offset) = (&sketch.index, &sketch.offset);
    let error = |error: f64| (10.0 * error).ceil().max(1.0) / 10.0;
    page.wrapped(
        "  index     ",
        &format!(
            "{} ({}); 8 in 10 such helmets lie between {:.1} and {:.1}",
            bold(&format!("{:.1}±{:.1}", index.mean.value, index.sd.value)),
            catalogue.shop.words.word(index.mean.value),
            sketch.interval.0,
            sketch.interval.1
        ),
    );
    page.wrapped("  sizes     ", &off_label(offset));
    page.wrapped("  learned   ", &learned(sketch));
    if !sketch.heard.is_empty() {
        let most = error(index.mean.error.max(index.sd.error));
        page.wrapped("  sampling  ", &format!("error of the index and its ± at most {most:.1}"));
    }
}

fn learned(sketch: &Sketch) -> String {
    if sketch.heard.is_empty() {
        return "nothing from customers".to_owned();
    }
    let (before, after) = (sketch.prior, sketch.index);
    let moved = format!("the customers moved the index by {:+.1}", after.mean.value - before.mean + 0.0);
    match sketch.worth() {
        Some(worth) if after.sd.value < before.sd - 0.05 => format!(
            "{moved} and narrowed it from ±{:.1} to ±{:.1}: worth as much as a measurement of it to ±{worth:.1}",
            before.sd, after.sd.value
        ),
        _ => format!("{moved} and did not narrow it: ±{:.1} before, ±{:.1} now", before.sd, after.sd.value),
    }
}

fn customers(page: &mut Page, catalogue: &Catalogue, experience: &Experience<'_>, sketch: &Sketch) {
    if experience.tried.is_empty() {
        return;
    }
    let population = catalogue.population(experience.population.as_str());
    let population = population.map_or_else(|| experience.population.to_string(), |population| population.name.clone());
    page.heading(&format!("CUSTOMERS (population: {population})"));
    for (at, (tried, heard)) in experience.tried.iter().zip(&sketch.heard).enumerate() {
        page.wrapped(&format!("{:>3}. ", at + 1), &customer(catalogue, experience, tried, heard));
    }
    page.wrapped(
        "     ",
        &format!(
            "expected: how often such a head in the sketched helmet says so, wrong reports counted; pulls: by how much \
             the index moves because of this customer. Of such groups {} report something as odd as this, or odder.",
            percent(sketch.here.probability)
        ),
    );
}

fn customer(catalogue: &Catalogue, experience: &Experience<'_>, tried: &Tried, heard: &Heard) -> String {
    let mut known = readings(&tried.readings);
    if let Some(eye) = tried.head.by_eye() {
        known.push(format!("{} by eye", catalogue.shop.words.word(eye.mean)));
    }
    let head = if known.is_empty() { "not measured".to_owned() } else { known.join(", ") };
    let size = &experience.sizes[tried.size];
    let mounted = tried.mounted.map_or(String::new(), |mounted| {
        let changed = mounted.iter().filter(|(zone, pad)| *pad != size.standard.get(*zone));
        let changed = changed.map(|(zone, pad)| format!("{} {}", zone.name(), pad.map_or("none".to_owned(), mm)));
        format!(" with {}", { changed }.join(", "))
    });
    let outcome = tried.reason.map_or("it fits", |reason| reason.words());
    format!(
        "{}{mounted}, {head}: {outcome} - expected {}, pulls {:+.1}",
        size.label,
        percent(heard.expected),
        tenths(heard.pull)
    )
}

/// Rounded, and never -0.
fn tenths(value: f64) -> f64 {
    (value * 10.0).round() / 10.0 + 0.0
}
