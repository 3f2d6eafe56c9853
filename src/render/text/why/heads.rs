//! Whose heads remain likely.

use super::super::page::{Page, fixed, percent};
use super::listed;
use crate::plan::{Likely, Moved, StepWhy, Told};
use crate::profile::Reason;
use crate::render::plan_words::rounded_up;
use itertools::Itertools;

/// Means that are less exact than this, mm or points of the index, are shown with their error.
const ROUGH_FROM: f64 = 1.0;

/// Reports that are rarer than this are not printed.
const SHOWN_FROM: f64 = 0.005;

/// The heads as measured, of whoever gets here, and after each outcome.
pub(super) fn heads(page: &mut Page, why: &StepWhy, here: &str) {
    page.heading("HEADS that remain likely");
    page.line("                      chance  circumference  shape index   long  interm.  round");
    page.line(&row("as measured", "", &why.measured));
    if let Some(likely) = why.here.as_ref().filter(|_| why.reach.value < 1.0 - 1e-9) {
        page.line(&row(here, "", likely));
        news(page, "", likely);
    }
    let (shown, rare): (Vec<&Told>, Vec<&Told>) =
        why.told.iter().partition(|told| told.reasons.is_empty() || told.probability.value >= SHOWN_FROM);
    shown.into_iter().for_each(|told| outcome(page, told));
    if !rare.is_empty() {
        let rare = rare.iter().map(|told| told.probability.value).sum::<f64>();
        page.line(&format!(
            "  {}{:>6}  rarer reports, each in the JSON document",
            fixed("all else", 20),
            percent(rare)
        ));
    }
    let words = "± is the spread (sd) of such heads. News is what moves by more than a quarter of the spread, and \
                 beyond the sampling error.";
    page.wrapped("  ", words);
}

/// An outcome of the try, and what it tells.
fn outcome(page: &mut Page, told: &Told) {
    let label = match told.reasons.as_slice() {
        [] => "it fits",
        [one] => one.id(),
        all if all.len() == Reason::GEOMETRIC => "it fails",
        _ => "else",
    };
    let chance = percent(told.probability.value);
    let Some(likely) = &told.likely else { return };
    page.line(&row(label, &chance, likely));
    let heard = match told.reasons.as_slice() {
        [] => String::new(),
        [one] => format!("If {}: ", one.words()),
        all if all.len() == Reason::GEOMETRIC => String::new(),
        several => format!("If it is {}: ", several.iter().map(|reason| reason.id()).join(", ")),
    };
    news(page, &heard, likely);
}

fn row(label: &str, chance: &str, likely: &Likely) -> String {
    let spread = |k: usize| format!("{:.1} ±{:.1}", likely.mean[k].value, likely.sd[k].value);
    let [long, intermediate, round] = likely.words.map(|share| percent(share.value));
    let label = fixed(label, 20);
    format!("  {label}{chance:>6}  {:>13}  {:>11}  {long:>5}  {intermediate:>7}  {round:>5}", spread(0), spread(4))
}

/// How the heads that are left differ from those before, in words.
fn news(page: &mut Page, heard: &str, likely: &Likely) {
    let spread = |k: usize| format!("{:.1}±{:.1}", likely.mean[k].value, likely.sd[k].value);
    let words = likely.moved.iter().map(|moved| match moved {
        Moved::Rounder => format!("rounder ({})", spread(4)),
        Moved::Longer => format!("a longer oval ({})", spread(4)),
        Moved::Larger => format!("larger ({} mm)", spread(0)),
        Moved::Smaller => format!("smaller ({} mm)", spread(0)),
        Moved::WiderFace => format!("wider in the face ({} mm)", spread(3)),
        Moved::NarrowerFace => format!("narrower in the face ({} mm)", spread(3)),
    });
    let words = listed(&words.collect_vec());
    let said =
        if words.is_empty() { "much as thought".to_owned() } else { format!("then probably {words} than thought") };
    let (c, s) = (likely.mean[0].error, likely.mean[4].error);
    let rough = if c.max(s) < ROUGH_FROM {
        String::new()
    } else {
        format!(
            "; rough, from {:.0} heads: the means are known to ±{:.1} mm and ±{:.1}",
            likely.effective_heads,
            rounded_up(c, 10.0),
            rounded_up(s, 10.0)
        )
    };
    page.hanging("     ", 5, &format!("{heard}{said}{rough}"));
}
