//! Whose heads remain likely.

use super::super::page::{Page, fixed, percent};
use crate::plan::{Likely, StepWhy};
use crate::render::why_words::{NEWS, label, news, outcome, shown_outcomes};

/// The heads as measured, of whoever gets here, and after each outcome.
pub(super) fn heads(page: &mut Page, why: &StepWhy, here: &str) {
    page.heading("HEADS that remain likely");
    page.line("                      chance  circumference  shape index   long  interm.  round");
    page.line(&row("as measured", "", &why.measured));
    if let Some(likely) = why.here.as_ref().filter(|_| why.reach.value < 1.0 - 1e-9) {
        page.line(&row(here, "", likely));
        page.wrapped("     ", &news(likely));
    }
    let (shown, rest) = shown_outcomes(why);
    for told in shown {
        let (Some(likely), Some(words)) = (&told.likely, outcome(told)) else { continue };
        page.line(&row(label(told), &percent(told.probability.value), likely));
        page.wrapped("     ", &words);
    }
    if let Some(rest) = rest {
        page.line(&format!(
            "  {}{:>6}  rarer reports, each in the JSON document",
            fixed("all else", 20),
            percent(rest)
        ));
    }
    page.wrapped("  ", NEWS);
}

fn row(label: &str, chance: &str, likely: &Likely) -> String {
    let spread = |k: usize| format!("{:.1} ±{:.1}", likely.mean[k].value, likely.sd[k].value);
    let [long, intermediate, round] = likely.words.map(|share| percent(share.value));
    let label = fixed(label, 20);
    format!("  {label}{chance:>6}  {:>13}  {:>11}  {long:>5}  {intermediate:>7}  {round:>5}", spread(0), spread(4))
}
