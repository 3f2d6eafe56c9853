//! `sketch`: a profile from experience.

use super::args::TypedSketch;
use super::resolve::Resolver;
use super::{Ending, Output};
use crate::catalogue::Catalogue;
use crate::diag::{Code, Diagnostic, Sources};
use crate::render::json::{self, Warning};
use crate::render::text;
use crate::sketch::{Experience, Finding, Fineness, Oddness, Sketch, Unfit, sketch};

pub(super) fn answer(
    typed: &TypedSketch,
    catalogue: &Catalogue,
    sources: &mut Sources,
) -> Result<Output, Vec<Diagnostic>> {
    let mut resolver = Resolver::default();
    let experience = resolver.experience(typed, catalogue, sources)?;
    let experience = resolver.finish(experience)?;
    let made = sketch(catalogue, &experience, Fineness::default());
    let warnings = warnings(catalogue, &experience, &made);
    let proposal = made.proposal().map_err(|unfit| refused(&unfit, &made, catalogue))?;
    let ending = if warnings.is_empty() { Ending::Done } else { Ending::Findings };
    let paste = text::paste(&experience, &made, proposal);
    let text = if typed.format.is_json() {
        json::text(&json::sketch(&experience, &made, (proposal, paste), (warnings, text::SKETCH_CAUTIONS)))
    } else {
        text::sketch(catalogue, &experience, &made, &paste, &warnings, text::SKETCH_CAUTIONS)
    };
    Ok(Output { text, ending })
}

/// A profile can't say everything that a sketch may come to. What is odd about it may be why.
fn refused(unfit: &Unfit, made: &Sketch, catalogue: &Catalogue) -> Vec<Diagnostic> {
    let (message, help) = match unfit {
        Unfit::Index(index, bounds) => (
            format!(
                "all this points to a shape index of {index}, and a profile takes {} to {}",
                bounds.start(),
                bounds.end()
            ),
            "check what it is like, how it differs and who tried it: no helmet has such an interior",
        ),
        Unfit::Sd(sd, bounds) => (
            format!("all this leaves the shape index open to ±{sd}, and a profile takes at most {}", bounds.end()),
            "say what it is like, or name customers who tried it",
        ),
        Unfit::Centre(sd, bounds) => (
            format!("the sizes seem to lie {sd} mm from their labels, and a profile takes at most {}", bounds.end()),
            "check the labels and the tape readings: that is the best part of a size",
        ),
    };
    let findings = made.findings(&catalogue.shop.sketch).into_iter();
    let why = findings.map(|finding| worded(finding, made)).map(|(code, words)| Diagnostic::warning(Code(code), words));
    std::iter::once(Diagnostic::error(Code("sketch-bounds"), message).help(help)).chain(why).collect()
}

/// A possible helmet, in brackets behind words.
fn helmet(odd: Oddness) -> String {
    let mm = (odd.offset.round() + 0.0).abs();
    match odd.offset {
        offset if offset > 0.5 => format!("index {:.1}, sizes {mm} mm larger than labelled", odd.index),
        offset if offset < -0.5 => format!("index {:.1}, sizes {mm} mm smaller than labelled", odd.index),
        _ => format!("index {:.1}", odd.index),
    }
}

fn warnings(catalogue: &Catalogue, experience: &Experience<'_>, made: &Sketch) -> Vec<Warning> {
    let findings = made.findings(&catalogue.shop.sketch);
    let mut warnings: Vec<Warning> = findings.into_iter().map(|finding| warning(finding, made)).collect();
    for (at, (heard, tried)) in made.heard.iter().zip(&experience.tried).enumerate() {
        if heard.rarity > catalogue.shop.inconsistent_above {
            let what = if tried.readings.len() == 1 {
                "Hardly any head has the measure"
            } else {
                "The measurements hardly ever go together on one head"
            };
            let message = format!("{what} of customer {}: check it. The figures below take it as it is.", at + 1);
            warnings.push(Warning { code: "rare-head".to_owned(), message });
        }
    }
    warnings
}

fn warning(finding: Finding, made: &Sketch) -> Warning {
    let (code, message) = worded(finding, made);
    Warning { code: code.to_owned(), message }
}

/// The code of a finding, and what it says.
fn worded(finding: Finding, made: &Sketch) -> (&'static str, String) {
    match finding {
        Finding::StatementsAtOdds(sds) => (
            "sketch-at-odds",
            format!(
                "What is said of the shape doesn't go together: two statements are {sds:.1} standard deviations \
                 apart. Look at the empty helmets side by side once more."
            ),
        ),
        Finding::OddReports(odd) => (
            "sketch-odd-reports",
            format!(
                "The customers contradict each other: even from the helmet that explains them best ({}) reports as odd as \
                 these come from {} such groups. Check their sizes and measurements.",
                helmet(odd),
                text::rarely(odd.probability)
            ),
        ),
        Finding::OddForThis(here, best) => (
            "sketch-odd-reports",
            format!(
                "The customers contradict what is said of the helmet: from the likeliest one ({}) reports as odd as \
                 these come from {} such groups; another one ({}) would explain them best. Check both.",
                helmet(here),
                text::rarely(here.probability),
                helmet(best)
            ),
        ),
        Finding::IndexMoved(sds) => (
            "sketch-far-moved",
            format!(
                "The customers move the index from {:.1} to {:.1}, {:.1} standard deviations from what was said of the \
                 shape. One of both is off: look at the empty helmet again.",
                made.prior.mean,
                made.index.mean.value,
                sds.abs()
            ),
        ),
        Finding::SizesOff(mm) => (
            "sketch-far-moved",
            format!(
                "The customers say that the sizes run {:.0} mm {} than labelled. Check the labels; if they are right, \
                 write the ranges of the profile so much {}.",
                mm.abs(),
                if mm > 0.0 { "larger" } else { "smaller" },
                if mm > 0.0 { "higher" } else { "lower" }
            ),
        ),
        Finding::TwoHumps([long, round]) => (
            "sketch-two-humps",
            format!(
                "Two shapes are possible, and hardly one between them: an index near {:.1} ({:.0} %) or near {:.1} \
                 ({:.0} %). The mean is neither; another customer would tell.",
                long.mean,
                100.0 * long.share,
                round.mean,
                100.0 * round.share
            ),
        ),
        Finding::NobodyTried => (
            "sketch-little-learned",
            "No customer is named: this is what was said of the shape, and no more.".to_owned(),
        ),
        Finding::LittleLearned => (
            "sketch-little-learned",
            format!(
                "The customers tell hardly anything of the shape: the index was known to ±{:.1} before them and is to \
                 ±{:.1} now. Heads whose length and breadth are measured tell more, above all those of unusual shape.",
                made.prior.sd, made.index.sd.value
            ),
        ),
    }
}
