//! Whose heads remain likely.

use super::listed;
use crate::plan::{Likely, Moved, StepWhy, Told};
use crate::profile::Reason;
use crate::render::plan_words::rounded_up;
use itertools::Itertools;

/// Means that are less exact than this, mm or points of the index, are shown with their error.
const ROUGH_FROM: f64 = 1.0;

/// Reports that are rarer than this are not shown.
const SHOWN_FROM: f64 = 0.005;

/// What counts as news.
pub(in crate::render) const NEWS: &str = "± is the spread (sd) of such heads. News is what moves by more than a quarter of the spread, and beyond the sampling \
     error.";

/// The outcomes that are shown, and the probability of all others where there are some.
pub(in crate::render) fn shown_outcomes(why: &StepWhy) -> (Vec<&Told>, Option<f64>) {
    let (shown, rare): (Vec<&Told>, Vec<&Told>) =
        why.told.iter().partition(|told| told.reasons.is_empty() || told.probability.value >= SHOWN_FROM);
    let rest = (!rare.is_empty()).then(|| rare.iter().map(|told| told.probability.value).sum());
    (shown, rest)
}

/// An outcome in a word.
pub(in crate::render) fn label(told: &Told) -> &'static str {
    match told.reasons.as_slice() {
        [] => "it fits",
        [one] => one.id(),
        all if all.len() == Reason::GEOMETRIC => "it fails",
        _ => "else",
    }
}

/// What an outcome tells, in words; nothing where nobody is left.
pub(in crate::render) fn outcome(told: &Told) -> Option<String> {
    let heard = match told.reasons.as_slice() {
        [] => String::new(),
        [one] => format!("If {}: ", one.words()),
        all if all.len() == Reason::GEOMETRIC => String::new(),
        several => format!("If it is {}: ", several.iter().map(|reason| reason.id()).join(", ")),
    };
    Some(format!("{heard}{}", news(told.likely.as_ref()?)))
}

/// How the heads that are left differ from those before, in words.
pub(in crate::render) fn news(likely: &Likely) -> String {
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
    format!("{said}{rough}")
}
